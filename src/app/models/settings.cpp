#include "app/models/settings.h"

#include "aging/clocks.h"
#include "app/book/book.h"
#include "app/book/settings.h"
#include "app/book/station.h"
#include "core/decimal.h"
#include "core/literature/constants.h"
#include "core/normal.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace mellowbin::app {
namespace {

std::string_view reference_of(std::string_view source) {
    for (const auto& known : literature::all_sources)
        if (known.key == source)
            return known.reference;
    return source;
}

/// Shares of the whole, which people read as percentages.
bool is_maturity(std::string_view key) { return key == "aging_mature_from" || key == "aging_usable_from"; }

ConstantRow constant_row(const literature::Constant& c) {
    const double scale = is_maturity(c.key) ? 100 : 1;
    const auto unit = is_maturity(c.key) ? "%" : c.unit == "1" ? "" : c.unit;
    return {std::string(c.key),
            fmt::format("{:g}", scale * c.value),
            std::string(unit),
            c.low == c.high ? "" : fmt::format("{:g} to {:g}", scale * c.low, scale * c.high),
            std::string(c.conditions),
            fmt::format("{}{}{}", reference_of(c.source), c.place_in_source.empty() ? "" : ", ",
                        c.place_in_source),
            std::string(literature::name_of(c.basis))};
}

std::string figure_words(LimitStatus status, std::optional<double> figure) {
    switch (status) {
    case LimitStatus::permitted:
        return figure ? fmt::format("{:g} mg/kg", *figure) : "no figure";
    case LimitStatus::permitted_gmp:
        return "good practice";
    case LimitStatus::not_permitted:
        return "not permitted";
    case LimitStatus::unclear:
        return "unclear";
    }
    return {};
}

std::string holds_in_words(const LimitRow& row) {
    if (row.valid_from && row.valid_to)
        return fmt::format("{} to {}", iso(*row.valid_from), iso(*row.valid_to));
    if (row.valid_from)
        return "from " + iso(*row.valid_from);
    if (row.valid_to)
        return "until " + iso(*row.valid_to);
    return "";
}

/// The markets of the products, and the wider ones they lie in.
std::set<std::string> markets_that_matter(const Book& book) {
    std::set<std::string> keys;
    for (const auto& product : book.products) {
        std::string key = product.market;
        while (!key.empty() && keys.insert(key).second) {
            const auto at = std::find_if(book.markets.begin(), book.markets.end(),
                                         [&](const Market& m) { return m.key == key; });
            key = at == book.markets.end() ? "" : at->lies_in;
        }
    }
    return keys;
}

/// What both lists say alike.
template <class Row> LimitLine limit_line(const Row& row, const std::set<std::string>& markets) {
    LimitLine line;
    line.market = row.market;
    line.figure = figure_in_words(row);
    line.rule = row.rule;
    line.source = row.source_date.empty() ? row.source : fmt::format("{} ({})", row.source, row.source_date);
    line.is_confirmed = row.is_confirmed;
    line.standing = !row.is_confirmed          ? "unconfirmed: never permits by itself"
                    : row.confirmed_by.empty() ? "read in its source"
                                               : "confirmed by " + row.confirmed_by;
    line.matters = markets.contains(row.market);
    line.draft = draft_of(row);
    return line;
}

LimitLine line_of(const LimitRow& row, const std::set<std::string>& markets) {
    auto line = limit_line(row, markets);
    line.id = {LimitRef::Of::oxidants, row.id};
    line.substance = name_of(row.substance);
    line.food = lower_case(name_of(row.food));
    line.holds = holds_in_words(row);
    return line;
}

LimitLine line_of(const PropionateRow& row, const std::set<std::string>& markets) {
    auto line = limit_line(row, markets);
    line.id = {LimitRef::Of::propionates, row.id};
    line.substance = "Propionate";
    line.food = row.bread;
    return line;
}

/// "0.082 a day, mature likely after 28 days at 20 °C, 80 % sure after 50"
std::string reading_words(Maturity best_time, double confidence) {
    const auto rate = aging::rate_if_best_time_is(best_time, FlourClass::white);
    const double likely =
        aging::theta_for(Maturity{aging::published_cut_points().mature_maturity}) / rate.median;
    return fmt::format("{} a day, mature likely after {} days at 20 °C, {} % sure after {}",
                       fixed(rate.median, 3), fixed(likely, 0), fixed(100 * confidence, 0),
                       fixed(likely * std::pow(rate.gsd, normal_point(confidence)), 0));
}

std::string best_time_words(double confidence) {
    const auto& read_as = literature::aging_mature_from;
    return fmt::format(
        "A published best time reads as {:g} % mature, by convention: nobody has measured it. For "
        "white flour that is {}. Read as {:g} % it would be {}; read as {:g} %, {}.",
        100 * read_as.value, reading_words(Maturity{read_as.value}, confidence), 100 * read_as.low,
        reading_words(Maturity{read_as.low}, confidence), 100 * read_as.high,
        reading_words(Maturity{read_as.high}, confidence));
}

SettingRow setting_row(const SettingTraits& traits, const Book& book) {
    SettingRow row{std::string(traits.key),
                   std::string(traits.label),
                   Choices(book.settings).words(traits.key),
                   std::string(traits.unit),
                   std::string(traits.what),
                   "as shipped",
                   ""};
    if (traits.kind == SettingKind::number && traits.otherwise.empty())
        row.when_empty = "as published";
    row.is_lines = traits.kind == SettingKind::lines;
    row.is_test_error = traits.key.starts_with(test_error_key_begins);
    for (const auto& stored : book.settings) {
        if (stored.key != traits.key)
            continue;
        row.who = stored.who;
        row.since = iso(stored.since);
    }
    return row;
}

std::string range_words(const TestPrecision& row) {
    if (row.low && row.high)
        return fmt::format("{:g} to {:g}", *row.low, *row.high);
    if (row.low)
        return fmt::format("from {:g}", *row.low);
    return row.high ? fmt::format("up to {:g}", *row.high) : std::string();
}

PrecisionLine line_of(const Station& s, const TestPrecision& row) {
    PrecisionLine line{row.id,
                       std::string(traits(row.property).name),
                       in_one(row.methods),
                       limits_in_words(row),
                       range_words(row),
                       row.source,
                       row.confidence,
                       draft_of(row)};
    if (row.mill_replicates > 1 || row.own_replicates > 1)
        line.limits += fmt::format("; means of {} and {}", row.mill_replicates, row.own_replicates);
    if (row.id != 0)
        line.changed = s.changed_elsewhere({RecordKind::test_precision, row.id});
    return line;
}

} // namespace

std::string figure_in_words(const LimitRow& row) {
    return figure_words(row.status, row.limit ? std::optional{row.limit->value()} : std::nullopt);
}

std::string figure_in_words(const PropionateRow& row) { return figure_words(row.status, row.mg_per_kg); }

SettingsModel make_settings(const Station& s) {
    SettingsModel model;
    model.doughs = make_doughs(s);
    for (const auto& constant : literature::all_constants)
        model.constants.push_back(constant_row(constant));
    model.best_time_words = best_time_words(s.estimates.confidence());
    const auto markets = markets_that_matter(s.book);
    const auto add = [&](const auto& row, RecordKind kind) {
        model.limits.push_back(line_of(row, markets));
        model.limits.back().changed = s.changed_elsewhere({kind, row.id});
    };
    for (const auto& row : s.book.limits)
        add(row, RecordKind::limit);
    for (const auto& row : s.book.propionates)
        add(row, RecordKind::propionate_limit);
    std::stable_sort(model.limits.begin(), model.limits.end(),
                     [](const auto& a, const auto& b) { return a.matters > b.matters; });
    for (const auto* rows : {&s.book.precision, &published_test_precision()})
        for (const auto& row : *rows)
            model.precision.push_back(line_of(s, row));
    for (const auto& traits : setting_table())
        model.settings.push_back(setting_row(traits, s.book));
    return model;
}

} // namespace mellowbin::app
