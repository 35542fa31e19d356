#include "core/typed_text.h"
#include "exchange/application_identifier.h"
#include "exchange/scan.h"
#include "fuzz/target.h"

#include <date/date.h>

namespace mellowbin::fuzz {
namespace {

using namespace exchange;

constexpr Day today = date::sys_days{date::year{2026} / 11 / 25};

void expect_sound(const Elements& elements) {
    for (const auto& element : elements) {
        const auto* known = application_identifier(element.identifier);
        expect(known != nullptr, "an element has an identifier of the table");
        expect(!fault_of(*known, element.value), "a value is as its identifier wants it");
    }
    expect(conflicts_in(elements).empty(), "elements that were read do not contradict each other");
    for (const auto& missing : missing_beside(elements))
        expect_text(in_words(missing));
}

/// Written as a symbol holds it, with more separators than it needs, and as it is printed beneath.
void expect_to_come_back(const Elements& elements) {
    std::string symbol = "]C1", printed;
    for (const auto& element : elements) {
        symbol += element.identifier + element.value + group_separator;
        printed += "(" + element.identifier + ")";
        for (const char c : element.value)
            printed += c == '(' ? std::string("\\(") : std::string(1, c);
    }
    const auto scanned = read_scan(symbol);
    expect(scanned && scanned->elements == elements, "elements written as a symbol read back the same");
    const auto typed = read_bracketed(printed);
    expect(typed && *typed == elements, "elements written in brackets read back the same");
}

void expect_near(const std::optional<Day>& day) {
    constexpr date::years longest_back{50}, longest_ahead{51};
    const date::year_month_day now{today};
    expect(!day || (*day > date::sys_days{now - longest_back} && *day < date::sys_days{now + longest_ahead}),
           "a day lies in the century that the standard gives it");
}

void expect_sound(const LabelFacts& facts, const Elements& elements) {
    expect(facts.lot == value_of(elements, "10"), "the lot is that of its element");
    for (const auto& day : {facts.produced, facts.packed, facts.best_before, facts.expires})
        expect_near(day);
    expect(!facts.net || facts.net->count() >= 0, "a weight is not below nothing");
    expect(facts.net.has_value() != facts.net_words.empty(), "a weight has its words");
    expect(!facts.count || *facts.count >= 0, "a count is not below nothing");
}

void look_at(const Elements& elements) {
    expect_sound(elements);
    expect_to_come_back(elements);
    expect_sound(facts_of(elements, today), elements);
    if (const auto doubt = separator_doubt(elements))
        expect(doubt->otherwise + doubt->behind.identifier + doubt->behind.value == doubt->as_read &&
                   !doubt->otherwise.empty(),
               "a doubted lot number is the other one with what may stand behind it");
}

void look_at_scan(std::string_view bytes, const ScannerSetup& setup) {
    const auto scan = read_scan(bytes, setup);
    const auto lot = lot_number_in(bytes, setup);
    if (!scan) {
        expect(!lot, "what cannot be read has no lot number");
        return expect_well_said(scan.refusals(), bytes);
    }
    if (scan->is_gs1()) {
        expect(scan->text.empty(), "a scan is elements or a text");
        look_at(scan->elements);
        expect(lot ? *lot == value_of(scan->elements, "10") : value_of(scan->elements, "10").empty(),
               "the lot number is that of the label");
    } else {
        expect(!scan->text.empty() && trimmed(scan->text) == scan->text, "a text is there, without blanks");
        expect(lot && *lot == scan->text, "the lot number is the text");
    }
}

void look_at_lot_number(std::string_view lot) {
    if (lot.empty() || why_not_on_label(lot))
        return;
    const auto read = read_element_string("10" + std::string(lot));
    expect(read && value_of(*read, "10") == lot, "a lot number that fits on a label is read from one");
}

void take(std::string_view bytes) {
    for (const char* separator : {"", "~", "<GS>"})
        look_at_scan(bytes, {separator});
    for (const auto short_gtin : {ShortGtin::is_refused, ShortGtin::is_filled_up}) {
        const auto link = read_digital_link(bytes, short_gtin);
        if (link)
            look_at(*link);
        else
            expect_well_said(link.refusals(), bytes);
    }
    look_at_lot_number(bytes);
}

const Registered target{"scan", take};

} // namespace
} // namespace mellowbin::fuzz
