#pragma once

#include "app/book/book.h"
#include "app/plan/lots.h"
#include "dough/law.h"

#include <map>
#include <string>

namespace mellowbin::app {

struct BanWords {
    planning::Ban ban = planning::Ban::none;
    std::string words;
};

/// In what state a lot is that can be drawn by nobody on the day: "that one is on hold"; empty: it can be.
std::string blocked(const Book& book, LotId lot, Day day);

/// Whether the lot, with what the mill put into it, may go into the run's product by law.
dough::Judged law_on(const Book& book, const Lot& lot, const Run& run, const Product& product);

/// Says which flour may not go into which run, and why.
class Bans {
public:
    Bans(const Book& book, Day today);
    [[nodiscard]] BanWords of(const PlanFlour& flour, const Run& run, const Product& product,
                              FlourPart part) const;

private:
    [[nodiscard]] BanWords state_of(const PlanFlour& flour, const Run& run, const Product& product) const;
    [[nodiscard]] BanWords concession_of(const Lot& lot, const Run& run, const Product& product) const;
    [[nodiscard]] BanWords law_of(const Lot& lot, const Run& run, const Product& product) const;
    [[nodiscard]] BanWords of_mixture(const PlanFlour& flour, const Run& run, const Product& product,
                                      FlourPart part) const;
    [[nodiscard]] BanWords readiness_of(const PlanFlour& flour, const Run& run, const Product& product,
                                        FlourPart part) const;
    [[nodiscard]] BanWords layers_over(const PlanFlour& flour, const Run& run) const;
    [[nodiscard]] Grams could_draw(FlourId flour, Day until) const;

    const Book& book_;
    double least_chance_;
    std::map<FlourId, std::map<Day, Grams>> drawn_until_; ///< what all runs until a day could draw
};

} // namespace mellowbin::app
