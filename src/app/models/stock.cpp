#include "app/models/stock.h"

#include "app/book/clock_words.h"
#include "app/book/station.h"
#include "app/models/lot_standing.h"
#include "db/stock_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::app {
namespace {

/// Days from and with which an age band begins; the last one has no end. For the eye, not for any rule.
constexpr std::array bands{0, 8, 15, 31, 61};

std::string band_words(std::size_t band) {
    if (band + 1 == bands.size())
        return fmt::format("{} days and more", bands[band]);
    return fmt::format("{} to {} days", bands[band], bands[band + 1] - 1);
}

StockRow row_of(const Station& s, const StockLine& line, Day on) {
    StockRow row;
    row.lot = line.lot;
    row.place = line.place_name;
    row.code = line.code;
    row.mill = line.mill;
    row.flour = line.flour;
    row.kg = to_kilograms(line.mass).value();
    const Place* place = s.book.place(line.place);
    if (line.bag > Grams{0} && !(place && place->kind == PlaceKind::silo))
        row.bags = static_cast<double>(line.mass.count()) / static_cast<double>(line.bag.count());
    row.age_days = std::max(0, static_cast<int>((on - line.delivered_on).count()));
    const Lot* lot = s.book.lot(line.lot);
    row.state = lot ? name_of(lot->state, standing_of(s.book, *lot, s.today())) : name_of(line.state);
    row.last_day = lot ? last_day(*lot) : line.best_before;
    if (row.last_day)
        row.days_left = static_cast<int>((*row.last_day - on).count());
    return row;
}

} // namespace

StockModel make_stock(const Station& s, std::optional<Instant> at) {
    const StockStore store(*s.connection);
    const auto lines = at ? store.at(*at) : store.now();
    const Day on = at ? plant_day(s.setup.clock, *at) : s.today();
    StockModel model;
    model.as_of = "As of " + (at ? time_in_words(s.setup.clock, *at, s.today()) : iso(s.today()));
    for (std::size_t band = 0; band < bands.size(); ++band)
        model.ages.push_back({band_words(band), 0});
    for (const auto& line : lines) {
        const auto& row = model.rows.emplace_back(row_of(s, line, on));
        model.kg += row.kg;
        const auto band = std::upper_bound(bands.begin(), bands.end(), row.age_days) - bands.begin() - 1;
        model.ages[static_cast<std::size_t>(band)].kg += row.kg;
        const auto flour = std::ranges::find(model.flours, row.flour, &StockOfFlour::flour);
        if (flour == model.flours.end())
            model.flours.push_back({row.flour, row.kg});
        else
            flour->kg += row.kg;
    }
    std::ranges::stable_sort(model.rows, {}, &StockRow::place);
    std::ranges::sort(model.flours, {}, &StockOfFlour::flour);
    return model;
}

} // namespace mellowbin::app
