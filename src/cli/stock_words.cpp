#include "cli/stock_words.h"

#include "cli/json_parts.h"
#include "cli/say.h"
#include "cli/text_table.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

std::string in_words(const std::vector<SiloPart>& parts) {
    std::string words;
    for (const auto& part : parts)
        words += fmt::format("{}{}{}{} {} kg ({} %)", words.empty() ? "" : ", ", part.certainty,
                             part.certainty.empty() ? "" : " ", part.code, fixed(part.kg, 1),
                             fixed(part.percent, 0));
    return words.empty() ? "nothing" : words;
}

ordered_json document_of(const std::vector<SiloPart>& parts) {
    auto all = ordered_json::array();
    for (const auto& part : parts) {
        ordered_json one{{"lot", part.code}, {"kg", part.kg}, {"percent", part.percent}};
        if (!part.certainty.empty())
            one["certainty"] = part.certainty;
        all.push_back(std::move(one));
    }
    return all;
}

} // namespace

void print_stock(std::ostream& out, const StockModel& stock) {
    say(out, "{}: {} kg\n", stock.as_of, fixed(stock.kg, 1));
    if (stock.rows.empty())
        return;
    TextTable table({{"place", Side::left},
                     {"lot", Side::left},
                     {"mill", Side::left},
                     {"flour", Side::left},
                     {"state", Side::left},
                     {"kg", Side::right},
                     {"bags", Side::right},
                     {"age d", Side::right},
                     {"last day", Side::left},
                     {"days left", Side::right}},
                    0);
    for (const auto& row : stock.rows)
        table.add({row.place, row.code, row.mill, row.flour, row.state, fixed(row.kg, 1),
                   number_or_dash(row.bags, 1), std::to_string(row.age_days),
                   row.last_day ? iso(*row.last_day) : "-",
                   row.days_left ? std::to_string(*row.days_left) : "-"});
    table.print(out);
    out << '\n';
    for (const auto& flour : stock.flours)
        say(out, "{}: {} kg\n", flour.flour, fixed(flour.kg, 1));
    for (const auto& age : stock.ages)
        if (age.kg > 0)
            say(out, "{}: {} kg\n", age.words, fixed(age.kg, 1));
}

std::string stock_as_json(const StockModel& stock) {
    ordered_json document{{"as_of", stock.as_of}, {"kg", stock.kg}, {"rows", ordered_json::array()}};
    for (const auto& row : stock.rows)
        document["rows"].push_back(
            {{"place", row.place},
             {"lot", row.code},
             {"mill", row.mill},
             {"flour", row.flour},
             {"state", row.state},
             {"kg", row.kg},
             {"bags", json_of(row.bags)},
             {"age_days", row.age_days},
             {"last_day", json_of(row.last_day)},
             {"days_left", row.days_left ? ordered_json(*row.days_left) : ordered_json()}});
    document["ages"] = ordered_json::array();
    for (const auto& age : stock.ages)
        document["ages"].push_back({{"days", age.words}, {"kg", age.kg}});
    return as_document(document);
}

void print_silos(std::ostream& out, std::span<const SiloRow> silos) {
    if (silos.empty())
        out << "The plant has no silo.\n";
    for (const auto& silo : silos) {
        say(out, "{}: {} kg{}; {}\n", silo.name, fixed(silo.kg, 1),
            silo.capacity_kg ? fmt::format(" of at most {}", fixed(*silo.capacity_kg, 0)) : std::string(),
            silo.zone);
        say(out, "  lies in it, the lowest first: {}\n", in_words(silo.layers));
        if (!silo.draw.empty())
            say(out, "  a draw of {} kg: {}\n", fixed(silo.draw_kg, 1), in_words(silo.draw));
        for (const auto& figure : silo.figures) {
            const auto [value, unit] = shown(figure);
            say(out, "    {} {} {}{}\n", figure.label, value, unit,
                figure.note.empty() ? "" : " (" + figure.note + ")");
        }
        for (const auto& care : silo.care)
            say(out, "  {}\n", care);
    }
}

std::string silos_as_json(std::span<const SiloRow> silos) {
    auto document = ordered_json::array();
    for (const auto& silo : silos) {
        auto figures = list_of(silo.figures, [](const Figure& figure) { return json_of(figure); });
        document.push_back({{"silo", silo.name},
                            {"zone", silo.zone_typed},
                            {"capacity_kg", json_of(silo.capacity_kg)},
                            {"kg", silo.kg},
                            {"layers", document_of(silo.layers)},
                            {"draw_kg", silo.draw_kg},
                            {"draw", document_of(silo.draw)},
                            {"figures", std::move(figures)},
                            {"care", silo.care}});
    }
    return as_document(document);
}

} // namespace mellowbin::cli
