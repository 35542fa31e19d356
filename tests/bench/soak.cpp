#include "app/acts/batches.h"
#include "app/acts/give_lot.h"
#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/runs.h"
#include "app/acts/solutions.h"
#include "app/acts/stock.h"
#include "app/models/card.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/plan.h"
#include "desk.h"
#include "measured.h"
#include "years_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace mellowbin::bench {
namespace {

constexpr int rounds_a_day = 25;

/// A plant's work day after day: what comes in is judged, moved, counted, mixed and thrown away, so that what
/// is live stays the same once the first days are no longer lately.
class LongWork {
public:
    explicit LongWork(Desk& desk) : desk_(desk) {
        take_in("SOAK", 900'000);
        flour_ = lot_of("SOAK");
        act(app::ReleaseLot{flour_, ""});
    }

    void go_on() {
        if (round_ > 0 && round_ % rounds_a_day == 0)
            begin_a_day();
        const auto code = fmt::format("S{}", ++round_);
        take_in(code, 1000);
        const auto lot = lot_of(code);
        act(app::ReleaseLot{lot, ""});
        act(app::HoldLot{lot, "seems damp"});
        act(app::ReleaseLot{lot, "was dry"});
        const auto [here, there] = places_of(lot);
        act(app::MoveLot{lot, here, there, "400"});
        act(app::CountLot{lot, here, "590", "spilt"});
        act(app::WasteLot{lot, here, "590", "torn bags"});
        act(app::WasteLot{lot, there, "400", "torn bags"});
        mix();
    }
    [[nodiscard]] int acts() const { return acts_; }

private:
    void act(const app::Intent& intent) {
        desk_.act(intent);
        desk_.draw();
        ++acts_;
    }

    void begin_a_day() {
        desk_.next_day();
        run_.reset();
        desk_.app().poll();
        const auto oxidants = desk_.app().mixer().oxidants;
        for (const auto& oxidant : oxidants)
            act(app::MakeSolution{oxidant, "7.5", ""});
    }

    void take_in(const std::string& code, int kg) {
        const auto& choices = desk_.app().intake();
        LotDraft lot;
        lot.code = code;
        lot.mill = choices.mills.at(0);
        lot.flour = choices.flours.at(0);
        lot.place = choices.places.at(0);
        lot.milled_on = iso(desk_.today() - Days{40});
        lot.delivered_on = iso(desk_.today());
        lot.mass_kg = std::to_string(kg);
        lot.bag_kg = "25";
        lot.figure(Property::moisture) = {Property::moisture, "14", "", "", ""};
        lot.figure(Property::protein) = {Property::protein, "12.6", "14 % moisture", "", ""};
        lot.figure(Property::absorption) = {Property::absorption, "61", "14 % moisture", "", ""};
        lot.figure(Property::falling_number) = {Property::falling_number, "320", "", "", ""};
        act(app::TakeIn{{lot}});
    }

    LotId lot_of(const std::string& code) {
        for (const auto& row : desk_.app().lots().rows)
            if (row.code == code)
                return row.id;
        throw std::runtime_error("lot " + code + " is not shown");
    }

    /// Where the lot lies, and another place.
    std::pair<PlaceId, PlaceId> places_of(LotId lot) {
        act(app::OpenLot{lot});
        const auto here = desk_.app().lots().opened->places.at(0).place;
        for (const auto& [place, name] : desk_.app().lots().places)
            if (place != here)
                return {here, place};
        throw std::runtime_error("there is one place only");
    }

    void mix() {
        if (!run_ || desk_.app().card_of(*run_).is_finished)
            run_ = a_new_run();
        act(app::ConfirmBatch{*run_, {{}, "", "", "", "", "Ines"}, 0});
        const auto batch = desk_.app().card_of(*run_).logged.front().id;
        act(app::LogResult{batch, {"26.5", "5.6", "right", "10", "", ""}});
    }

    RunId a_new_run() {
        act(app::ShowPlan{desk_.today(), 7});
        const auto product = desk_.app().plan().products.at(0), line = desk_.app().plan().line_names.at(0);
        act(app::AddRun{product, line, iso(desk_.today()), "100"});
        RunId newest;
        for (const auto& run : desk_.app().plan().runs)
            newest = std::max(newest, run.id);
        act(app::GiveLot{flour_, {}, newest});
        return newest;
    }

    Desk& desk_;
    LotId flour_;
    std::optional<RunId> run_;
    int round_ = 0;
    int acts_ = 0;
};

} // namespace

bool soak(const std::filesystem::path& demo, int acts) {
    const CopyInMemory copy(demo);
    Desk desk(copy.path());
    LongWork work(desk);
    const int tenth = std::max(1, acts / 10);
    double at_half = 0;
    fmt::print("{:>8}{:>12}{:>12}\n", "acts", "memory MB", "ms an act");
    for (int part = 1; part <= 10; ++part) {
        const int before = work.acts();
        const double took = seconds_of([&] {
            while (work.acts() < part * tenth)
                work.go_on();
        });
        fmt::print("{:>8}{:>12.1f}{:>12.1f}\n", work.acts(), resident_mb(),
                   1000 * took / std::max(1, work.acts() - before));
        std::fflush(stdout);
        if (part == 5)
            at_half = resident_mb();
    }
    constexpr double flat_mb = 2;
    const double grown = resident_mb() - at_half;
    fmt::print("The second half let it grow by {:.1f} MB; at most {} MB: {}\n", grown, flat_mb,
               grown <= flat_mb ? "met" : "NOT MET");
    return grown <= flat_mb;
}

} // namespace mellowbin::bench
