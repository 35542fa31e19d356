#include "app/models/plant.h"

#include "app/book/door.h"
#include "app/book/fields.h"
#include "app/book/settings.h"
#include "app/book/station.h"
#include "db/plant_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string words_of(const Book&, const Mill&) { return {}; }

std::string words_of(const Book&, const Flour& flour) {
    const auto properties = flour.specification.size();
    const auto specified = properties == 0 ? std::string("no specification")
                                           : fmt::format("{} {} specified", properties,
                                                         properties == 1 ? "property" : "properties");
    return fmt::format("{}, {}", name_of(flour.flour_class), specified);
}

std::string words_of(const Book&, const Place& place) {
    return fmt::format("{}, {:g} °C", name_of(place.air), place.temperature.value());
}

std::string words_of(const Book&, const Line& line) {
    return fmt::format("water from {:g} °C, ice up to {:g} %", line.coldest_water.value(),
                       100 * line.most_ice);
}

std::string words_of(const Book& book, const Product& product) {
    const auto name = [&](FlourId id) {
        const Flour* flour = book.flour(id);
        return flour ? flour->name : std::string("?");
    };
    const auto second = product.second_flour ? " and " + name(product.second_flour->flour) : "";
    return fmt::format("{}{}, {}", name(product.flour), second, product.market);
}

PlantDraft draft_in(const Book& book, const Product& product) { return draft_of(product, book.flours); }
template <class Record> PlantDraft draft_in(const Book&, const Record& record) { return draft_of(record); }

template <class Record>
std::vector<PlantRow> rows_of(const Station& s, PlantKind kind, const std::vector<Record>& records) {
    std::vector<PlantRow> rows;
    for (const bool is_retired : {false, true})
        for (const auto& record : records) {
            if (record.is_retired != is_retired)
                continue;
            const PlantRef ref{kind, record.id.number()};
            rows.push_back({ref, record.name, words_of(s.book, record), is_retired,
                            s.changed_elsewhere(record_of(ref)), draft_in(s.book, record)});
        }
    return rows;
}

template <class Record>
std::optional<PlantDraft> draft_among(const Book& book, const std::vector<Record>& records,
                                      std::int64_t number) {
    const auto at = std::find_if(records.begin(), records.end(),
                                 [&](const Record& record) { return record.id.number() == number; });
    return at == records.end() ? std::nullopt : std::optional(draft_in(book, *at));
}

} // namespace

const PlantRow* PlantModel::find(PlantRef wanted) const {
    const auto& list = of(wanted.kind);
    const auto at =
        std::find_if(list.begin(), list.end(), [&](const PlantRow& row) { return row.record == wanted; });
    return at == list.end() ? nullptr : &*at;
}

std::optional<PlantDraft> plant_draft_in(const Book& book, PlantRef record) {
    switch (record.kind) {
    case PlantKind::mill:
        return draft_among(book, book.mills, record.number);
    case PlantKind::flour:
        return draft_among(book, book.flours, record.number);
    case PlantKind::place:
        return draft_among(book, book.places, record.number);
    case PlantKind::line:
        return draft_among(book, book.lines, record.number);
    case PlantKind::product:
        break;
    }
    return draft_among(book, book.products, record.number);
}

void make_plant(const Station& s, PlantModel& model) {
    const Choices choices(s.book.settings);
    model.name = choices.words("plant");
    model.rows = {rows_of(s, PlantKind::mill, s.book.mills), rows_of(s, PlantKind::flour, s.book.flours),
                  rows_of(s, PlantKind::place, s.book.places), rows_of(s, PlantKind::line, s.book.lines),
                  rows_of(s, PlantKind::product, s.book.products)};
    model.flours = names_in_use(s.book.flours);
    model.markets.clear();
    for (const auto& market : s.book.markets)
        model.markets.push_back(market.key);
    model.door_checks = choices.lines("door_checks");
    model.has_own_checks = !model.door_checks.empty();
    if (!model.has_own_checks)
        model.door_checks = usual_door_checks();
    model.mill_words = make_mill_words(s);
    model.meanings = meaning_choices();
    ++model.made;
}

} // namespace mellowbin::app
