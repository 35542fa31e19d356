#include "core/day.h"
#include "exchange/dispatch_file.h"
#include "fuzz/target.h"

namespace mellowbin::fuzz {
namespace {

const Day today = date::sys_days{date::year{2026} / 11 / 25};

void take_line(const DispatchLine& line, std::string_view bytes) {
    const auto& draft = line.dispatch;
    for (const auto* text : {&draft.product, &draft.run, &draft.customer, &draft.pieces, &draft.kg,
                             &draft.piece_g, &draft.day, &draft.note, &draft.reason})
        expect_text(*text);
    const auto dispatch = accept(draft, today);
    if (!dispatch)
        return expect_well_said(dispatch.refusals(), bytes);
    expect(!dispatch->customer.empty() && (dispatch->pieces || dispatch->mass),
           "a dispatch that is taken says to whom and how much");
    expect(!dispatch->mass || *dispatch->mass > Grams{0}, "a dispatch that is taken weighs something");
    expect(dispatch->day <= today, "nothing left on a day to come");
}

void take(std::string_view bytes) {
    const auto lines = exchange::read_dispatches(bytes);
    if (!lines)
        return expect_well_said(lines.refusals(), bytes);
    expect(!lines->empty() && lines->size() <= bytes.size(), "a file that is read has lines of its own");
    std::size_t before = 0;
    for (const auto& line : *lines) {
        expect(line.line > before, "lines follow each other");
        before = line.line;
        take_line(line, bytes);
    }
}

const Registered target{"dispatch_file", take};

} // namespace
} // namespace mellowbin::fuzz
