#include "cli/aging_as_text.h"

#include "app/app.h"
#include "app/models/aging_words.h"
#include "app/models/learning.h"
#include "app/models/lot_agreements.h"
#include "app/models/lots.h"
#include "app/models/outlook.h"
#include "app/models/readiness.h"
#include "app/models/storage.h"
#include "app/models/story.h"
#include "cli/say.h"
#include "cli/text_table.h"
#include "core/decimal.h"
#include "core/promised.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

std::string with_unit(double value, Property property) {
    const auto& kind = traits(property);
    return fmt::format("{}{}{}", fixed(value, kind.decimals), kind.unit.empty() ? "" : " ", kind.unit);
}

void print_list(std::ostream& out, const char* head, const std::vector<std::string>& lines) {
    if (lines.empty())
        return;
    say(out, "\n{}\n", head);
    for (const auto& line : lines)
        say(out, "  - {}\n", line);
}

std::vector<std::string> lines_of(const std::vector<Finding>& findings) {
    std::vector<std::string> lines;
    for (const auto& finding : findings)
        lines.push_back((finding.weight == Finding::Weight::against ? "MIND: " : "") + finding.words);
    return lines;
}

void print_head(std::ostream& out, const LotSheet& sheet, const AgingStory& story) {
    say(out, "Lot {}: {}, {}\n{}\n", story.code, story.flour, sheet.row.mill, sheet.state_words);
    if (const auto& conceded = sheet.concession)
        say(out, "{}Concession by {} until {} for {}: {}\n", conceded->is_over ? "STOP: over. " : "",
            conceded->by, iso(conceded->until), conceded->products, conceded->deviation);
    say(out, "Milled {}, delivered {}\n",
        sheet.row.milled_on ? iso(*sheet.row.milled_on) : "on an unknown day", iso(sheet.row.delivered_on));
    std::string places;
    for (const auto& share : sheet.places)
        places += fmt::format("{}{} kg in {}", places.empty() ? "" : ", ", fixed(share.kg, 1), share.name);
    say(out, "In stock: {}\n", places.empty() ? "nothing" : places);
    if (!sheet.best_before_words.empty())
        say(out, "{}{}\n", sheet.is_over ? "STOP: over. " : "", sheet.best_before_words);
    if (!sheet.delivered_words.empty())
        say(out, "{}\n", sheet.delivered_words);
    if (!sheet.certificate_words.empty())
        say(out, "Certificate: {}\n", sheet.certificate_words);
    if (!sheet.came_words.empty())
        say(out, "{}\n", sheet.came_words);
    std::vector<std::string> pallets;
    for (const auto& pallet : sheet.pallets)
        pallets.push_back(
            sscc_in_words(pallet.sscc) +
            (pallet.mass ? fmt::format(", {} kg", fixed(to_kilograms(*pallet.mass).value(), 1)) : ""));
    print_list(out, "Pallets", pallets);
    print_list(out, "At the door", lines_of(sheet.door));
    print_list(out, "Results against specification", lines_of(sheet.results));
    if (!sheet.own_test.words.empty())
        say(out, "\n{}{}\n", sheet.own_test.words,
            sheet.own_test.source.empty() ? "" : fmt::format(" ({})", sheet.own_test.source));
    print_list(out, "Retests against the certificate", lines_of(findings_of(sheet.agreements)));
}

std::string interval_words(const DaySpread& spread) {
    const auto day = [](const std::optional<Day>& at) { return at ? iso(*at) : "not within two years"; };
    return fmt::format("likely {}; 80 % interval {} to {}", day(spread.likely), day(spread.early),
                       day(spread.late));
}

void print_advice(std::ostream& out, const AgingStory& story, const ReadinessModel& readiness) {
    say(out, "\nAs of {}: {}\n", iso(readiness.as_of), in_words(story.advice));
    for (const auto& reason : story.reasons)
        say(out, "  - {}\n", reason);
    say(out, "Maturity       {}\n", story.maturity_words);
    const auto on = [](const std::optional<Day>& day) { return day ? iso(*day) : "not within two years"; };
    say(out, "Ready on       {}  with {:.0f} % confidence; {}\n", on(story.ready_at_confidence),
        100 * readiness.confidence, interval_words(story.ready));
    say(out, "Use first from {}\n", on(story.use_first_on));
    say(out, "Best until     {}  past its best {}\n", on(story.past_best_at_confidence),
        interval_words(story.past_best));
}

void print_runs(std::ostream& out, const AgingStory& story) {
    if (story.runs.empty())
        return;
    out << "\nRuns it is planned for\n";
    for (const auto& run : story.runs)
        say(out, "  {}  {}: mature with {} probability, past its best with {}\n", iso(run.day), run.words,
            as_percent(run.probability_mature), as_percent(run.probability_past_best));
}

void print_tests(std::ostream& out, const AgingStory& story) {
    if (story.tests.empty()) {
        out << "\nTests: none that can say anything about its maturing\n";
        return;
    }
    out << "\nTests\n";
    TextTable table({{"no.", Side::right},
                     {"taken on", Side::left},
                     {"property", Side::left},
                     {"value", Side::right},
                     {"basis", Side::left},
                     {"method", Side::left},
                     {"place", Side::left},
                     {"by", Side::left},
                     {"standing", Side::left}},
                    2);
    for (const auto& test : story.tests)
        table.add({test.retest ? std::to_string(test.retest->number()) : "-", iso(test.taken_on),
                   std::string(traits(test.property).name), with_unit(test.value, test.property), test.basis,
                   test.method, test.place, test.who, (test.asks_check ? "CHECK: " : "") + test.standing});
    table.print(out);
}

void print_keeping(std::ostream& out, const AgingStory& story) {
    out << "\nStorage and keeping\n";
    say(out, "  {}\n", story.storage_words);
    if (story.moisture_now)
        say(out, "  Moisture {} %, water activity {}\n", fixed(*story.moisture_now, 1),
            number_or_dash(story.water_activity_now, 2));
    else
        out << "  Moisture not known: none was measured\n";
    say(out, "  {}\n", story.fat_acidity_words);
    for (const auto& alarm : story.alarms)
        say(out, "  {} {}\n", alarm.is_stop ? "STOP:" : "Mind:", alarm.words);
}

std::vector<std::string> worth_lines(const AgingStory& story) {
    std::vector<std::string> lines;
    for (const auto& worth : story.retests)
        lines.push_back(fmt::format("{}: {}", traits(worth.property).name, worth.words));
    return lines;
}

std::vector<std::string> elsewhere_lines(const AgingStory& story) {
    std::vector<std::string> lines;
    for (const auto& place : story.elsewhere)
        lines.push_back(fmt::format("{}, {}", place.name, place.words));
    return lines;
}

std::vector<std::string> origin_lines(const AgingStory& story) {
    std::vector<std::string> lines;
    for (const auto& origin : story.origins)
        lines.push_back(fmt::format("{}: {} ({})", origin.what, origin.value, origin.from));
    return lines;
}

void print_course(std::ostream& out, const PropertyCourse& course) {
    const auto& kind = traits(course.property);
    say(out, "\n{}{}{}: its course by the estimate (10, 50 and 90 %)\n", kind.name,
        kind.unit.empty() ? "" : ", ", kind.unit);
    TextTable days(
        {{"day", Side::left}, {"low", Side::right}, {"likely", Side::right}, {"high", Side::right}}, 2);
    for (const auto& day : course.band)
        days.add({iso(day.day), fixed(day.low, kind.decimals), fixed(day.likely, kind.decimals),
                  fixed(day.high, kind.decimals)});
    days.print(out);
}

/// A day's air and flour; dashes where the lot lay nowhere yet.
std::vector<std::string> storage_columns(const std::vector<StorageDay>& storage, Day day) {
    const auto air =
        std::find_if(storage.begin(), storage.end(), [&](const StorageDay& one) { return one.day == day; });
    if (air == storage.end())
        return std::vector<std::string>(6, "-");
    return {fixed(air->low, 1),
            fixed(air->mean, 1),
            fixed(air->high, 1),
            number_or_dash(air->humidity, 0),
            number_or_dash(air->flour_moisture, 1),
            as_percent(air->measured)};
}

} // namespace

void print_lot(std::ostream& out, const App& app) {
    promised(app.readiness().opened && app.lots().opened);
    const AgingStory& story = *app.readiness().opened;
    print_head(out, *app.lots().opened, story);
    print_advice(out, story, app.readiness());
    print_runs(out, story);
    print_tests(out, story);
    print_list(out, "What a retest now would be worth", worth_lines(story));
    print_list(out, "Elsewhere, from this day on", elsewhere_lines(story));
    print_keeping(out, story);
    print_list(out, "Where the numbers come from", origin_lines(story));
    print_list(out, "Reservations", story.reservations);
}

void print_lot_days(std::ostream& out, const AgingStory& story) {
    out << "\nDay by day (maturity in %: 10, 50 and 90 %)\n";
    TextTable table({{"day", Side::left},
                     {"low", Side::right},
                     {"likely", Side::right},
                     {"high", Side::right},
                     {"°C low", Side::right},
                     {"mean", Side::right},
                     {"high", Side::right},
                     {"humidity %", Side::right},
                     {"moisture %", Side::right},
                     {"measured", Side::right}},
                    2);
    for (const auto& day : story.curve) {
        std::vector<std::string> row{iso(day.day), fixed(100 * day.low, 0), fixed(100 * day.likely, 0),
                                     fixed(100 * day.high, 0)};
        const auto air = storage_columns(story.storage, day.day);
        row.insert(row.end(), air.begin(), air.end());
        table.add(std::move(row));
    }
    table.print(out);
    for (const auto& course : story.courses)
        if (!course.band.empty())
            print_course(out, course);
}

void print_places(std::ostream& out, const std::vector<PlaceRow>& places) {
    if (places.empty())
        out << "No places yet. Put a plant file into the book: mellowbin plant FILE.json\n";
    for (const auto& place : places) {
        say(out, "{}\n  assumed   {}\n  measured  {}\n", place.name, place.assumed,
            place.measured.empty() ? "no log read" : place.measured);
        for (const auto& log : place.logs)
            say(out, "  log {}  {}, by {}: {}{}\n", log.id.number(), log.file, log.who, log.words,
                log.is_withdrawn ? " (taken back)" : "");
    }
}

void print_learned(std::ostream& out, const LearningModel& learning) {
    say(out, "{}\n", learning.standing);
    for (const auto& row : learning.rows)
        say(out, "\n{}\n  published  {}\n  holds now  {}\n  offered    {}\n  from       {}\n  {}\n", row.what,
            row.published, row.holds, row.offered, row.from, row.meaning);
    if (!learning.blocked.empty())
        say(out, "\nNothing to adopt: {}\n", learning.blocked);
}

} // namespace mellowbin::cli
