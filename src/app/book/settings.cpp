#include "app/book/settings.h"

#include "aging/evidence.h"
#include "core/decimal.h"
#include "core/promised.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::app {
namespace {

using enum SettingKind;

constexpr std::array fixed_table{
    SettingTraits{"plant", "Plant", "", "", words, 0, 0, "The name on top of the window."},
    SettingTraits{"time_zone", "Time zone", "", "", words, 0, 0,
                  "IANA name of the plant's zone, such as Europe/Lisbon; empty takes the machine's."},
    SettingTraits{
        "confidence", "Confidence of a ready date", "0.80", "", number, 0.5, 0.99,
        "A lot counts as ready on the first day on which it is mature with this probability. A choice, no "
        "published limit."},
    SettingTraits{
        "least_chance_to_plan", "Least chance of being usable", "0.50", "", number, 0, 0.99,
        "A younger lot is not planned: the probability that half of its maturing is done, on the day of the "
        "run. A choice."},
    SettingTraits{"bread_ph", "Bread pH expected", "5.4", "", number, 3, 8,
                  "For the preservative's working range, until the site measures its own. An assumption."},
    SettingTraits{"mass_unit", "Unit of mass at the mixer", "kg", "", choice, 0, 0,
                  "What the card is read in and what is typed at the mixer. The book holds grams.", "kg|lb"},
    SettingTraits{"temperature_unit", "Unit of temperature at the mixer", "°C", "", choice, 0, 0,
                  "What the card is read in and what is typed at the mixer.", "°C|°F"},
    SettingTraits{"second_check", "A second person checks the oxidant", "no", "", choice, 0, 0,
                  "A batch with oxidant is confirmed only with the name of a second person who looked at the "
                  "scale. A choice.",
                  "no|yes"},
    SettingTraits{"scan_bags", "Scan a bag of each lot", "no", "", choice, 0, 0,
                  "A batch is confirmed only when a bag of each of its lots was scanned. A choice.",
                  "no|yes"},
    SettingTraits{"door_checks", "Checks at the door", "", "", lines, 0, 0,
                  "What is asked of every delivery, a line each; a yes is well. [temperature] stands for the "
                  "limit below. Empty: the usual five. Common practice, no source."},
    SettingTraits{
        "warm_flour", "Flour is delivered warm from", "30", "°C", number, 0, 60,
        "A lot whose flour comes so warm or warmer is taken in only with a reason: warm flour sweats "
        "where it cools, and ages faster. Common practice, no source."},
    SettingTraits{
        "mill_testing", "Own tests of a mill's lots", "no plan", "", choice, 0, 0,
        "Which lots Intake and a lot's sheet say are to be tested by your own laboratory: every lot; "
        "by the switching rules of ISO 2859-1 (from memory: normal, tightened, reduced); or one lot in "
        "so many once ten in a row were inside. Advice: it releases nothing, and quality may test any "
        "lot. A choice.",
        "no plan|every lot|switching rules|one lot in so many"},
    SettingTraits{"mill_testing_one_in", "One lot is tested in", "4", "lots", number, 2, 100,
                  "Where not every lot is tested; which one is drawn by its number. A choice."},
    SettingTraits{
        "delivery_tolerance_pct", "Weight of a delivery off its note", "0.5", "%", number, 0, 20,
        "What lots, note, scale and order may differ by; more asks for a reason before the lots are "
        "taken in. Common practice, no source."},
    SettingTraits{"match_days", "Days an expected delivery is offered for", "7", "days", number, 0, 92,
                  "On Intake a delivery is offered that was to come so many days before or after the day it "
                  "came, or fewer. A choice."},
    SettingTraits{
        "scanner_separator", "Scanner's separator", "", "", words, 0, 0,
        "What your scanners send in place of the group separator of a GS1 label: ~, | or <GS>. Empty: "
        "the separator itself, which a scanner that types sends as Ctrl+]."},
    SettingTraits{
        "calendar_file", "Calendar file", "", "", words, 0, 0,
        "Calendars may subscribe to this file (.ics), which is written anew after each act that changes what "
        "is in it: ready and last days of lots, runs, days to order by. Only on machines that have its "
        "folder. Empty: none."},
    SettingTraits{"scanner_gap", "Longest gap between a scanner's keys", "35", "ms", number, 5, 200,
                  "Keys that come so soon behind each other are a scanner's and are kept out of fields; what "
                  "a person types comes up so much later. From memory."},
    SettingTraits{"scanner_port", "Scanner's port", "", "", words, 0, 0,
                  "The serial port of a scanner that does not type, such as /dev/ttyACM0 or, the same after "
                  "each plugging in, a path below /dev/serial/by-id. Empty: none."},
    SettingTraits{"scanner_port_speed", "Speed of the scanner's port", "9600", "baud", choice, 0, 0,
                  "As the scanner is set; over USB any will do.", "9600|19200|38400|57600|115200"},
    SettingTraits{"solution_hours", "A stock solution keeps for", "24", "h", number, 1, 168,
                  "Ascorbic acid in water is made fresh each day, dark and without metal: from memory."},
    SettingTraits{
        "hot_water_from", "Hot water from", "40", "°C", number, 20, 60,
        "A card that asks for water as hot asks for a reason first: it harms yeast. Common practice, no "
        "source."},
    SettingTraits{"water_temperature_distance", "Water temperature off the card", "10", "°C", number, 0.5, 60,
                  "What was typed and lies further from the card asks for a reason. A choice."},
    SettingTraits{"water_distance", "Water off the card", "15", "%", number, 0.5, 100,
                  "What was typed and lies further from the card's water asks for a reason. A choice."},
    SettingTraits{
        "dough_temperature_distance", "Dough temperature off the aim", "5", "°C", number, 0.5, 45,
        "A dough that is said to be further from the temperature aimed at asks for a reason. A choice."},
    SettingTraits{"dough_too_warm", "Dough too warm for want of cold", "3", "°C", number, 0.5, 20,
                  "A card whose dough will be so much too warm asks for a reason first. A choice."},
    SettingTraits{
        "solution_distance", "Stock solution off the line's strength", "50", "%", number, 1, 1000,
        "A solution whose strength lies further from that of every line asks for a reason. A choice."},
    SettingTraits{"oxidant_price", "Price of the oxidant", "0", "per kg", number, 0, 1e5,
                  "For what the remedies cost, in the plant's money; 0: not set."},
    SettingTraits{"line_price", "Price of a line's time", "0", "per hour", number, 0, 1e6,
                  "What an hour more of fermentation costs, in the plant's money; 0: not set."},
    SettingTraits{"freeze_days", "Days that are frozen", "1", "days", number, 0, 14,
                  "Runs of so many days from today, today the first, keep the lots they have when a plan is "
                  "made. 0 freezes nothing but what is being mixed. A run that is short, or whose lot may no "
                  "longer be used, is planned anew all the same. A choice."},
    SettingTraits{"days_to_release", "Days to release a delivery", "1", "days", number, 0, 60,
                  "From the arrival of a delivery until quality has judged it: the plan counts on it from "
                  "then on. A choice."},
    SettingTraits{
        "plan_seconds", "Time to search for a plan", "5", "s", number, 0, 600,
        "At most; a few runs take less. 0 searches by a fixed number of steps instead of by the clock: "
        "then the same book gives the same plan on any machine."},
    SettingTraits{
        "weight_short", "Weight of missing flour", "5000", "per t", number, 0, 1e6,
        "What a tonne short counts when plans are compared. Far above all others, so that flour is never "
        "left unplanned to please a smaller wish."},
    SettingTraits{
        "weight_window", "Weight of a property outside its specification", "400", "per t and half width",
        number, 0, 1e6,
        "What a tonne counts whose blend lies outside a specification by half of its width; twice as "
        "far counts twice."},
    SettingTraits{"weight_maturity", "Weight of missing maturity", "300", "per t and 10 points", number, 0,
                  1e6,
                  "What a tonne counts that lacks 10 points of its product's maturity which neither time nor "
                  "permitted oxidant makes up."},
    SettingTraits{
        "weight_past_best", "Weight of flour past its best", "100", "per t", number, 0, 1e6,
        "What a tonne counts that goes into dough after the day from which its lot is past its best."},
    SettingTraits{"weight_waste", "Weight of flour that expires unused", "250", "per t", number, 0, 1e6,
                  "What a tonne counts whose last day lies inside the days planned and which no run takes."},
    SettingTraits{
        "weight_oxidant", "Weight of oxidant", "60", "per t and 100 mg/kg", number, 0, 1e6,
        "What a tonne dosed with 100 mg/kg counts, in ascorbic acid's effect. Above zero, time comes "
        "first and oxidant only where time cannot do it."},
    SettingTraits{
        "weight_lot_change", "Weight of a lot change on a line", "25", "each", number, 0, 1e6,
        "What each lot counts that the run before on the line did not have. Higher: fewer lots, at the "
        "price of the others."},
    SettingTraits{
        "weight_age", "Weight of younger flour before older", "0.0005", "per t and day squared", number, 0,
        1e3,
        "What a tonne counts for the square of the days left until its last one, above the oldest lot "
        "that the run could have. The square makes first-expiring flour go first."},
    SettingTraits{
        "weight_price", "Weight of dearer flour", "0.03", "of the price", number, 0, 10,
        "The share of a lot's price per tonne above the cheapest that the run could have. Flour in stock "
        "is paid for: a small share only breaks ties."},
    SettingTraits{
        "weight_plan_change", "Weight of a change when a plan is mended", "40", "each", number, 0, 1e6,
        "What each further run and lot counts that is changed beside those that no longer hold. Higher: "
        "fewer changes; 0: the best plan, whatever moves. An assumption."},
};

/// A setting a test whose results say something of a flour's maturing, with the words it is made of.
struct TestErrors {
    std::vector<std::string> keys, labels;
    std::vector<SettingTraits> rows;

    TestErrors() {
        const auto tests = aging::maturing_tests();
        keys.reserve(tests.size());
        labels.reserve(tests.size());
        for (const auto& test : tests) {
            const bool is_share = test.change == aging::ChangeKind::share;
            keys.push_back(test_error_key(traits(test.property).key));
            labels.push_back(fmt::format("Own error of a test: {}", traits(test.property).name));
            rows.push_back({keys.back(), labels.back(), "", is_share ? "% of the result" : "points", number,
                            0.01, 50,
                            "Standard deviation of one test by your laboratory's duplicates; empty: as "
                            "published, which is an assumption."});
        }
    }
};

std::vector<SettingTraits> make_table() {
    static const TestErrors of_tests;
    std::vector<SettingTraits> table(fixed_table.begin(), fixed_table.end());
    table.insert(table.end(), of_tests.rows.begin(), of_tests.rows.end());
    return table;
}

constexpr std::size_t most_lines = 12;
constexpr std::size_t longest_line = 80; // bytes

std::vector<std::string> lines_in(std::string_view text) {
    std::vector<std::string> lines;
    while (!text.empty()) {
        const auto end = text.find('\n');
        if (const auto line = trimmed(text.substr(0, end)); !line.empty())
            lines.emplace_back(line);
        text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
    }
    return lines;
}

Result<std::string> accept_lines(const SettingTraits& setting, std::string_view typed) {
    const auto lines = lines_in(typed);
    Refusals refusals;
    const auto refuse = [&](std::string what, std::string remedy) {
        refusals.push_back({std::string(setting.label), std::move(what), std::move(remedy)});
    };
    if (lines.size() > most_lines)
        refuse(fmt::format("{} lines were read; up to {} are expected", lines.size(), most_lines),
               "Ask fewer things: what is asked of every delivery must be answered at every delivery");
    std::string kept;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (lines[i].size() > longest_line)
            refuse(fmt::format("\"{}\" and more was read; up to {} characters are expected",
                               excerpt(lines[i]), longest_line),
                   "Say it in fewer words");
        for (std::size_t j = 0; j < i; ++j)
            if (same_words(lines[i], lines[j]))
                refuse(fmt::format("\"{}\" stands there twice", excerpt(lines[i])), "Keep one");
        kept += (kept.empty() ? "" : "\n") + lines[i];
    }
    if (!refusals.empty())
        return refusals;
    return kept;
}

Result<std::string> accept_choice(const SettingTraits& setting, std::string_view typed) {
    std::string names;
    for (std::string_view rest = setting.options; !rest.empty();) {
        const auto bar = rest.find('|');
        const auto option = rest.substr(0, bar);
        if (typed == option)
            return std::string(typed);
        names += (names.empty() ? "" : ", ") + std::string(option);
        rest = bar == std::string_view::npos ? std::string_view{} : rest.substr(bar + 1);
    }
    return Refusal{std::string(setting.label), fmt::format("\"{}\" was read", typed),
                   "Choose one of: " + names};
}

} // namespace

std::span<const SettingTraits> setting_table() {
    static const auto table = make_table();
    return table;
}

const SettingTraits* setting_traits(std::string_view key) {
    const auto table = setting_table();
    const auto at = std::find_if(table.begin(), table.end(), [&](const auto& row) { return row.key == key; });
    return at == table.end() ? nullptr : &*at;
}

Result<std::string> accept_setting(const SettingTraits& setting, std::string_view typed) {
    if (setting.kind == words)
        return std::string(typed);
    if (setting.kind == choice)
        return accept_choice(setting, typed);
    if (setting.kind == lines)
        return accept_lines(setting, typed);
    if (setting.otherwise.empty() && trimmed(typed).empty())
        return std::string();
    const std::string unit(setting.unit);
    const auto read = read_required_decimal(setting.label, typed, {setting.low, setting.high, unit.c_str()});
    if (!read)
        return read.refusals();
    return as_typed(*read);
}

std::string Choices::words(std::string_view key) const {
    const auto* row = setting_traits(key);
    promised(row);
    const auto at =
        std::find_if(stored_.begin(), stored_.end(), [&](const Setting& s) { return s.key == key; });
    return at == stored_.end() ? std::string(row->otherwise) : at->value;
}

double Choices::number(std::string_view key) const {
    const auto read = read_decimal(key, words(key));
    if (read && *read)
        return **read;
    const auto otherwise = read_decimal(key, setting_traits(key)->otherwise);
    return **otherwise;
}

std::optional<double> Choices::number_if_any(std::string_view key) const {
    const auto read = read_decimal(key, words(key));
    return read ? *read : std::nullopt;
}

std::vector<std::string> Choices::lines(std::string_view key) const { return lines_in(words(key)); }

std::string test_error_key(std::string_view property_key) {
    return fmt::format("{}{}", test_error_key_begins, property_key);
}

std::vector<std::pair<Property, double>> own_test_errors(std::span<const Setting> stored) {
    std::vector<std::pair<Property, double>> errors;
    const Choices choices(stored);
    for (const auto& test : aging::maturing_tests())
        if (const auto own = choices.number_if_any(test_error_key(traits(test.property).key)))
            errors.emplace_back(test.property, test.change == aging::ChangeKind::share ? *own / 100 : *own);
    return errors;
}

HouseUnits house_units(std::span<const Setting> stored) {
    const Choices choices(stored);
    return HouseUnits(choices.words("mass_unit"), choices.words("temperature_unit"));
}

} // namespace mellowbin::app
