#include "app/models/plan_supply.h"

#include "app/book/book.h"
#include "app/book/fields.h"
#include "app/book/station.h"
#include "app/models/plan.h"
#include "app/plan/expected.h"
#include "app/plan/reserved.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace mellowbin::app {
namespace {

std::string kg(Grams mass) { return fixed(to_kilograms(mass).value(), 0) + " kg"; }

/// "18000 kg in 3 runs"; empty where no run has any of it.
std::string promised_in_words(const Book& book, ExpectedId delivery) {
    Grams sum;
    std::set<RunId> runs;
    for (const auto& p : book.promises) {
        if (p.delivery != delivery)
            continue;
        sum += p.mass;
        runs.insert(p.run);
    }
    if (runs.empty())
        return {};
    return fmt::format("{} in {} {}", kg(sum), runs.size(), runs.size() == 1 ? "run" : "runs");
}

std::string words_of(const Station& s, const ExpectedDelivery& delivery) {
    const Mill* mill = s.book.mill(delivery.mill);
    const Flour* flour = s.book.flour(delivery.flour);
    auto words = fmt::format("{}: {} {} from {}, {}", delivery.code, kg(delivery.mass),
                             flour ? flour->name : "?", mill ? mill->name : "?", short_day(delivery.arrives));
    if (!delivery.order.empty())
        words += ", order " + delivery.order;
    if (is_late(delivery, s.today()))
        words +=
            fmt::format(", late: counted on from {}", short_day(usable_from(s.book, delivery, s.today())));
    return words + "; " + expectation_of(s.book, s.estimates, delivery, s.today()).figures;
}

std::string words_of(const Book& book, const Reservation& reservation) {
    const Lot* lot = book.lot(reservation.lot);
    const std::string code = lot ? lot->code : "?";
    if (!reservation.product)
        return fmt::format("{} of lot {} kept back: {}", kg(reservation.kept_back), code, reservation.reason);
    const Product* product = book.product(*reservation.product);
    return fmt::format("Lot {} kept for {}: {}", code, product ? product->name : "?", reservation.reason);
}

/// Keys of the markets that the products are sold in, each once.
std::vector<std::string> markets_of(const Book& book) {
    std::vector<std::string> markets;
    for (const auto& product : book.products)
        if (!product.is_retired && std::find(markets.begin(), markets.end(), product.market) == markets.end())
            markets.push_back(product.market);
    return markets;
}

} // namespace

void show_supply(const Station& s, PlanModel& model) {
    model.expected.clear();
    for (const auto& delivery : s.book.expected)
        if (!delivery.has_come)
            model.expected.push_back({delivery.id, words_of(s, delivery),
                                      promised_in_words(s.book, delivery.id), is_late(delivery, s.today()),
                                      delivery.order});
    std::stable_sort(model.expected.begin(), model.expected.end(),
                     [&](const ExpectedRow& a, const ExpectedRow& b) {
                         return s.book.delivery(a.id)->arrives < s.book.delivery(b.id)->arrives;
                     });
    model.reserved.clear();
    for (const auto& reservation : s.book.reservations)
        model.reserved.push_back({reservation.id, reservation.lot, words_of(s.book, reservation)});
    model.mills = names_in_use(s.book.mills);
    model.flours = names_in_use(s.book.flours);
    model.markets = markets_of(s.book);
}

} // namespace mellowbin::app
