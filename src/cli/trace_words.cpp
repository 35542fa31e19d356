#include "cli/trace_words.h"

#include "cli/json_parts.h"
#include "cli/say.h"
#include "cli/text_table.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

std::string kg_or_dash(const std::optional<double>& kg) { return number_or_dash(kg, 3); }
double kg(Grams mass) { return to_kilograms(mass).value(); }

void print_balances(std::ostream& out, const std::vector<MassBalance>& balances) {
    out << "\nMass balance, kg\n";
    TextTable table({{"lot", Side::left},
                     {"received", Side::right},
                     {"counted", Side::right},
                     {"used", Side::right},
                     {"in stock", Side::right},
                     {"waste", Side::right},
                     {"to the mill", Side::right},
                     {"unexplained", Side::right},
                     {"%", Side::right}},
                    2);
    for (const auto& one : balances) {
        std::vector<std::string> cells{one.code};
        for (const Grams mass :
             {one.received, one.counted, one.used, one.in_stock, one.waste, one.to_mill, one.unexplained})
            cells.push_back(fixed(kg(mass), 3));
        cells.push_back(fixed(one.unexplained_percent, 3));
        table.add(std::move(cells));
    }
    table.print(out);
}

std::string key_of(TraceRow::Kind kind) {
    return kind == TraceRow::Kind::lot ? "lot" : kind == TraceRow::Kind::batch ? "batch" : "dispatch";
}

ordered_json document_of(const MassBalance& one) {
    return {{"lot", one.code},
            {"received_kg", kg(one.received)},
            {"counted_kg", kg(one.counted)},
            {"used_kg", kg(one.used)},
            {"in_stock_kg", kg(one.in_stock)},
            {"waste_kg", kg(one.waste)},
            {"to_the_mill_kg", kg(one.to_mill)},
            {"unexplained_kg", kg(one.unexplained)},
            {"unexplained_percent", one.unexplained_percent}};
}

ordered_json document_of(const TraceRow& row) {
    return {{"kind", key_of(row.kind)},
            {"what", row.what},
            {"when", row.when},
            {"booked_kg", json_of(row.kg)},
            {"likely_kg", json_of(row.likely)},
            {"certainty", row.certainty ? ordered_json(mellowbin::key_of(*row.certainty)) : ordered_json()},
            {"where", row.where},
            {"why", row.why},
            {"who", row.who}};
}

ordered_json document_of(const TraceDispatch& one) {
    const auto& d = one.dispatch;
    return {{"dispatch", d.id.number()},
            {"day", iso(d.day)},
            {"product", one.product},
            {"run", one.run_code},
            {"customer", d.customer},
            {"pieces", d.pieces ? ordered_json(*d.pieces) : ordered_json()},
            {"kg", d.mass ? ordered_json(kg(*d.mass)) : ordered_json()},
            {"note", d.note},
            {"reason", d.reason},
            {"who", d.who},
            {"taken_back", d.is_countered}};
}

std::string subject_of(const Drill& drill) {
    return fmt::format("{} {}{}", mellowbin::key_of(drill.asks), drill.of,
                       drill.day ? ", " + iso(*drill.day) : std::string());
}

ordered_json document_of(const Drill& drill) {
    ordered_json document{{"drill", drill.id.number()},
                          {"asks", mellowbin::key_of(drill.asks)},
                          {"of", drill.of},
                          {"day", drill.day ? ordered_json(iso(*drill.day)) : ordered_json()},
                          {"begun_at", iso(drill.at)},
                          {"who", drill.who},
                          {"ended_at", ordered_json()}};
    if (!drill.end)
        return document;
    document["ended_at"] = iso(drill.end->at);
    document["ended_by"] = drill.end->who;
    document["seconds"] = drill.end->seconds;
    document["trace_milliseconds"] = drill.end->milliseconds;
    document["note"] = drill.end->note;
    return document;
}

void print_listing(std::ostream& out, const Listing& listing) {
    say(out, "\n{}\n", listing.title);
    std::vector<std::pair<std::string, Side>> heads;
    for (const auto& column : listing.columns)
        heads.emplace_back(head_of(column), Side::left);
    TextTable table(std::move(heads), 2);
    for (const auto& row : listing.rows) {
        std::vector<std::string> cells;
        for (std::size_t i = 0; i < row.size(); ++i)
            cells.push_back(in_words(listing.columns[i], row[i]));
        table.add(std::move(cells));
    }
    table.print(out);
    for (const auto& note : listing.notes)
        say(out, "  - {}\n", note);
}

} // namespace

void print_trace(std::ostream& out, const TraceModel& trace, const std::string& summary) {
    say(out, "{}\n\n", summary);
    TextTable table({{"what", Side::left},
                     {"when", Side::left},
                     {"booked kg", Side::right},
                     {"likely kg", Side::right},
                     {"", Side::left},
                     {"where", Side::left},
                     {"why", Side::left},
                     {"who", Side::left}},
                    2);
    for (const auto& row : trace.rows)
        table.add({row.what, row.when, kg_or_dash(row.kg), kg_or_dash(row.likely),
                   row.certainty ? std::string(in_words(*row.certainty)) : "", row.where, row.why, row.who});
    table.print(out);
    if (!trace.balances.empty())
        print_balances(out, trace.balances);
    out << "\nHow it was traced\n";
    for (const auto& rule : trace.rules)
        say(out, "  - {}\n", rule);
    for (const auto& law : trace.law)
        say(out, "  - {}\n", law);
}

std::string trace_as_json(const TraceModel& trace) {
    const ordered_json document{
        {"title", trace.title},
        {"rows", list_of(trace.rows, [](const TraceRow& row) { return document_of(row); })},
        {"balances", list_of(trace.balances, [](const MassBalance& one) { return document_of(one); })},
        {"can_be_held", trace.to_hold().size()},
        {"rules", trace.rules},
        {"law", trace.law}};
    return document.dump(2) + "\n";
}

void print_dispatches(std::ostream& out, std::span<const TraceDispatch> dispatches) {
    TextTable table({{"", Side::right},
                     {"day", Side::left},
                     {"customer", Side::left},
                     {"product", Side::left},
                     {"run", Side::left},
                     {"pieces", Side::right},
                     {"kg", Side::right},
                     {"note", Side::left},
                     {"who", Side::left}});
    for (const auto& one : dispatches) {
        const auto& d = one.dispatch;
        table.add({std::to_string(d.id.number()), iso(d.day), d.customer, one.product, one.run_code,
                   d.pieces ? std::to_string(*d.pieces) : "–",
                   d.mass ? fixed(kg(*d.mass), 1) : std::string("–"), d.is_countered ? "taken back" : d.note,
                   d.who});
    }
    if (table.is_empty())
        out << "No dispatches in these days\n";
    else
        table.print(out);
}

std::string dispatches_as_json(std::span<const TraceDispatch> dispatches) {
    return list_of(dispatches, [](const TraceDispatch& one) { return document_of(one); }).dump(2) + "\n";
}

void print_drills(std::ostream& out, std::span<const Drill> drills) {
    if (drills.empty())
        out << "No drill yet. mellowbin trace-drill --lot NUMBER begins one\n";
    for (const auto& drill : drills)
        say(out, "{}  {}  {}  {}  {}\n", drill.id.number(), iso(drill.at), subject_of(drill), drill.who,
            drill.end ? fmt::format("{} s", drill.end->seconds) : "runs");
}

std::string drills_as_json(std::span<const Drill> drills) {
    return list_of(drills, [](const Drill& drill) { return document_of(drill); }).dump(2) + "\n";
}

void print_drill(std::ostream& out, const Drill& drill) {
    say(out, "Drill {}, {}, begun {} by {}\n", drill.id.number(), subject_of(drill), iso(drill.at),
        drill.who);
    if (!drill.end) {
        say(out, "It runs; mellowbin trace-drill --end {} ends it\n", drill.id.number());
        return;
    }
    say(out, "Ended {} by {}: {} s; the program's part {} ms{}\n", iso(drill.end->at), drill.end->who,
        drill.end->seconds, drill.end->milliseconds, drill.end->note.empty() ? "" : "; " + drill.end->note);
    for (const auto& listing : drill.end->report)
        print_listing(out, listing);
}

std::string drill_as_json(const Drill& drill) {
    auto document = document_of(drill);
    if (drill.end)
        document["report"] = list_of(drill.end->report, [](const Listing& listing) {
            ordered_json rows = ordered_json::array();
            for (const auto& row : listing.rows) {
                ordered_json cells = ordered_json::object();
                for (std::size_t i = 0; i < row.size(); ++i)
                    cells[head_of(listing.columns[i])] = in_words(listing.columns[i], row[i]);
                rows.push_back(std::move(cells));
            }
            return ordered_json{{"list", listing.name}, {"rows", std::move(rows)}, {"notes", listing.notes}};
        });
    return document.dump(2) + "\n";
}

} // namespace mellowbin::cli
