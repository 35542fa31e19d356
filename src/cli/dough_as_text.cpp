#include "cli/dough_as_text.h"

#include "app/models/card.h"
#include "app/models/doughs.h"
#include "app/models/keeping.h"
#include "app/models/ladders.h"
#include "app/models/levers.h"
#include "app/models/maturity_words.h"
#include "cli/say.h"
#include "cli/text_table.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

std::string_view in_words(KeepingLimit::Standing standing) {
    switch (standing) {
    case KeepingLimit::Standing::permitted:
        return "permitted";
    case KeepingLimit::Standing::unconfirmed:
        return "unconfirmed";
    case KeepingLimit::Standing::not_known:
        return "not known";
    case KeepingLimit::Standing::forbidden:
        break;
    }
    return "forbidden";
}

void print_line(std::ostream& out, std::string_view label, const std::string& words) {
    if (!words.empty())
        say(out, "    {:<9} {}\n", label, words);
}

} // namespace

void print_levers(std::ostream& out, const LeversModel& levers) {
    say(out, "{}\n", levers.title);
    for (const auto& refusal : levers.refusals)
        say(out, "  - {}\n", mellowbin::in_words(refusal));
    if (!levers.refusals.empty())
        return;
    say(out, "  {}\n  {}\n", levers.gap, levers.gap_spread);
    for (const auto& words : levers.too_far)
        say(out, "  Mind: {}\n", words);
    for (const auto& lever : levers.levers) {
        say(out, "  {}: {}\n", lever.name, app::in_words(lever.standing));
        print_line(out, "", lever.figures);
        print_line(out, "how sure", lever.spread);
        print_line(out, "time", lever.time);
        print_line(out, "money", lever.money);
        print_line(out, "label", lever.label);
        for (const auto& note : lever.notes)
            print_line(out, "note", note);
    }
    if (!levers.mixes.empty())
        out << "  Together, the cheapest first:\n";
    for (const auto& mix : levers.mixes)
        say(out, "    {}: {} mature, {}, time {}, {}\n", mix.words, percent_words(Maturity{mix.maturity}),
            money_words(mix.money), mix.minutes > 0 ? fmt::format("{:.0f} min", mix.minutes) : "none",
            mix.label);
    if (!levers.no_mix.empty())
        say(out, "  {}\n", levers.no_mix);
}

void print_keeping(std::ostream& out, const KeepingModel& keeping) {
    say(out, "{}\n", keeping.product_name);
    for (const auto& words : keeping.warnings)
        say(out, "  Mind: {}\n", words);
    say(out, "  {:<20} {}\n", "Sold as", keeping.sold_as ? name_of(*keeping.sold_as) : "nobody said");
    for (const auto& line : keeping.figures)
        say(out, "  {:<20} {:>9} {:<14} {}\n", line.label, shown(line).value, line.unit, line.note);
    for (const auto& limit : keeping.limits)
        say(out, "  {}: {}\n", in_words(limit.standing), limit.words);
    say(out, "  {}\n  {}\n", keeping.mould_line, keeping.site_words);
    for (std::size_t i = 0; i < keeping.advice.size(); ++i)
        say(out, "  {}. {}\n", i + 1, keeping.advice[i]);
    for (const auto& words : keeping.practice)
        say(out, "  {}\n", words);
    for (const auto& day : keeping.firmness)
        say(out, "  firmness, day {}: {} g ({} to {}), {} loaves\n", day.days, fixed(day.mean, 0),
            fixed(day.low, 0), fixed(day.high, 0), day.loaves);
    for (const auto& row : keeping.records)
        say(out, "  {:>4} {}, {}, {}{}\n", row.id.number(), short_day(row.day), row.words, row.who,
            row.is_withdrawn ? " (withdrawn)" : "");
}

void print_ladders(std::ostream& out, const std::vector<LadderModel>& ladders) {
    if (ladders.empty())
        out << "No loaf of this lot is logged.\n";
    for (const auto& ladder : ladders) {
        say(out, "{}\n", ladder.substance);
        for (const auto& words : {ladder.best_words, ladder.fall_words, ladder.gain_words, ladder.next_words})
            if (!words.empty())
                say(out, "  {}\n", words);
        for (const auto& permit : ladder.permits)
            say(out, "  {}\n", permit.words);
        for (const auto& note : ladder.notes)
            say(out, "  note: {}\n", note);
        for (const auto& row : ladder.rows)
            say(out, "  {:>4} {}  {:>6g} mg/kg  {:>7g} {}  {}  {}{}\n", row.id.number(), short_day(row.day),
                row.dose, row.size, ladder.unit, row.who, row.note, row.is_withdrawn ? " (withdrawn)" : "");
    }
}

void print_batches(std::ostream& out, const CardModel& card) {
    if (card.logged.empty())
        say(out, "No batch of run {} is logged.\n", card.run_code);
    for (const auto& row : card.logged) {
        say(out, "  {:>4} batch {}, {}, {}{}: {}\n", row.id.number(), row.number, row.at, row.who,
            row.is_countered ? " (countered)" : "", row.words);
        if (!row.result_words.empty())
            say(out, "       {}\n", row.result_words);
    }
}

void print_ingredients(std::ostream& out, const DoughRow& dough, const DoughsModel& model) {
    say(out, "{}\n", dough.product);
    TextTable table({{"ingredient", Side::left},
                     {"% of flour", Side::right},
                     {"% water", Side::right},
                     {"goes in at, " + model.temperature_unit, Side::right}},
                    2);
    for (const auto& row : dough.ingredients)
        table.add({row.name, row.percent, row.water.empty() ? "0" : row.water,
                   row.temperature.empty() ? "room" : row.temperature});
    if (table.is_empty())
        say(out, "  no ingredients beside flour and water\n");
    else
        table.print(out);
    if (!dough.water_words.empty())
        say(out, "  {}\n", dough.water_words);
}

void print_usual(std::ostream& out, const DoughsModel& model) {
    TextTable table({{"ingredient", Side::left}, {"water", Side::left}, {"source", Side::left}});
    for (const auto& usual : model.usual)
        table.add({usual.name, usual.words, usual.source});
    table.print(out);
}

} // namespace mellowbin::cli
