#include "cli/mill_as_text.h"

#include "cli/say.h"
#include "cli/text_table.h"
#include "core/counted.h"
#include "core/decimal.h"
#include "core/lot_words.h"

#include <fmt/format.h>

#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

std::string outside_in_words(const MillSide& side) {
    std::string words;
    for (const auto& one : side.outsides)
        if (one.outside > 0)
            words += fmt::format("{}{} {} of {}", words.empty() ? "" : ", ", traits(one.property).name,
                                 one.outside, one.lots);
    return words.empty() ? words : ": " + words;
}

void print_side(std::ostream& out, const char* whose, const MillSide& side) {
    say(out, "    {}: {} inside, {} outside{}; {} without a figure to compare\n", whose, side.inside,
        side.outside, outside_in_words(side), side.unknown);
}

void print_flours(std::ostream& out, const MillRecordModel& record) {
    for (const auto& flour : record.flours) {
        say(out, "  {}: {}, {} kg\n", flour.name, counted(flour.lots, "lot", "lots"), fixed(flour.kg, 0));
        print_side(out, "by certificate", flour.certificate);
        print_side(out, "by own tests", flour.own);
        if (!flour.testing.empty())
            say(out, "    next lots: {}\n", flour.testing);
    }
    say(out, "Tested by the plant: {} of {}; plan: {}{}\n", record.tested,
        counted(record.lots, "lot", "lots"), record.plan,
        record.plan_source.empty() ? "" : fmt::format(" ({})", record.plan_source));
}

void print_differences(std::ostream& out, const MillRecordModel& record) {
    if (record.differences.empty())
        return;
    out << "\nOwn test minus certificate\n";
    TextTable table({{"property", Side::left},
                     {"lots", Side::right},
                     {"mean", Side::right},
                     {"spread", Side::right},
                     {"", Side::left}},
                    2);
    for (const auto& [row, words] : record.differences) {
        const auto& kind = traits(row.property);
        table.add({std::string(kind.name), fmt::format("{}", row.lots),
                   row.lots > 0 ? fixed(row.mean, kind.decimals + 1) : "–",
                   number_or_dash(row.spread, kind.decimals + 1), words});
    }
    table.print(out);
}

void print_days(std::ostream& out, const MillRecordModel& record) {
    const auto& days = record.days;
    say(out, "\nOn time: {} of {} expected deliveries{}\n", days.on_time, days.on_time + days.late,
        days.late > 0 ? fmt::format("; {} late, {} days at most", days.late, days.most_days_late) : "");
    for (const auto& words : days.overdue)
        say(out, "  overdue: {}\n", words);
    say(out, "Held: {}; rejected: {}; went back: {} kg\n", counted(record.held, "lot", "lots"),
        record.rejected, fixed(record.returned_kg, 0));
    for (const auto& row : record.returns)
        say(out, "  {}: lot {}, {} kg, {}{}, {}\n", row.at, row.lot, fixed(row.kg, 0), row.reason,
            row.document.empty() ? "" : ", " + row.document, row.who);
}

void print_complaints(std::ostream& out, const MillRecordModel& record) {
    say(out, "\nComplaints: {} open, {} answered\n", record.open, record.answered);
    for (const auto& row : record.complaints) {
        say(out, "  {}  {}{}\n     {}\n", row.id.number(),
            row.is_withdrawn ? "withdrawn: "
            : row.is_open    ? "OPEN: "
                             : "",
            row.words, row.noticed);
        if (!row.answer.empty())
            say(out, "     {}\n", row.answer);
    }
}

std::string value_in_words(const MillValue& value, Property property) {
    const int decimals = traits(property).decimals;
    std::string words = value.mill ? fixed(*value.mill, decimals) + (value.is_mill_out ? " OUT" : "") : "–";
    if (value.own)
        words += fmt::format(" (own {}{})", fixed(*value.own, decimals), value.is_own_out ? " OUT" : "");
    return words;
}

std::string days_late_in_words(const std::optional<int>& days) {
    return !days ? "–" : *days == 0 ? "on the day" : fmt::format("{:+} d", *days);
}

void print_lots(std::ostream& out, const MillLotsPage& page) {
    if (page.rows.empty())
        return;
    say(out, "\nLots {} to {} of {}, the newest first\n", page.first,
        page.first + static_cast<int>(page.rows.size()) - 1, page.all);
    std::vector<std::pair<std::string, Side>> heads{{"lot", Side::left},       {"flour", Side::left},
                                                    {"delivered", Side::left}, {"expected", Side::left},
                                                    {"kg", Side::right},       {"state", Side::left}};
    for (const auto property : page.properties)
        heads.emplace_back(traits(property).name, Side::left);
    TextTable table(std::move(heads), 2);
    for (const auto& row : page.rows) {
        std::vector<std::string> cells{row.code,
                                       row.flour,
                                       iso(row.delivered_on),
                                       days_late_in_words(row.days_late),
                                       fixed(row.kg, 0),
                                       std::string(in_words(row.state)) +
                                           (row.was_held && row.state != LotState::held ? ", was held" : "")};
        for (std::size_t i = 0; i < page.properties.size(); ++i)
            cells.push_back(value_in_words(row.values[i], page.properties[i]));
        table.add(std::move(cells));
    }
    table.print(out);
}

} // namespace

void print_mill_record(std::ostream& out, const MillRecordModel& record) {
    say(out, "{}, {} to {}: {}, {} kg\n", record.mill, iso(record.query.from), iso(record.query.until),
        counted(record.lots, "lot", "lots"), fixed(record.kg, 0));
    print_flours(out, record);
    print_differences(out, record);
    print_days(out, record);
    print_complaints(out, record);
    print_lots(out, record.page);
    out << "\nHow it was counted\n";
    for (const auto& rule : record.rules)
        say(out, "  - {}\n", rule);
}

} // namespace mellowbin::cli
