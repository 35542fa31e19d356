#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/quantity.h"
#include "core/result.h"

#include <optional>
#include <string>

namespace mellowbin {

using DispatchId = Id<struct DispatchRecord>;

/// Bread of a run that left the plant: to whom, how much, when. It is countered by a second row, never
/// edited.
struct Dispatch {
    DispatchId id;
    ProductId product;
    RunId run;            ///< it was baked of
    std::string customer; ///< the plant's code of the one it went to
    std::optional<int> pieces;
    std::optional<Grams> mass; ///< of bread; not said: only pieces were counted
    Day day;
    std::string note;
    std::string reason; ///< why it stands although it is more than was baked, as far as that is known
    Instant at;
    std::string who;
    bool is_countered = false;
    friend bool operator==(const Dispatch&, const Dispatch&) = default;
};

/// A dispatch as typed or as a line of a file says it.
struct DispatchDraft {
    std::string product; ///< its name; empty: the run's
    std::string run; ///< its code; empty: the only run of the product on the day, or on the last day with one
    std::string customer; ///< code
    std::string pieces;
    std::string kg;      ///< of bread; empty: pieces times their weight, where that is said
    std::string piece_g; ///< what a piece weighs
    std::string day;     ///< empty: today
    std::string note;
    std::string reason;
    friend bool operator==(const DispatchDraft&, const DispatchDraft&) = default;
};

/// A dispatch as a line of a file says it.
struct DispatchLine {
    std::size_t line = 0; ///< in the file, from 1
    DispatchDraft dispatch;
};

/// Reads the draft, but for product and run, and gives every reason at once when it cannot be taken: no
/// customer, neither pieces nor kg, figures that are none or out of 1 to 10,000,000 pieces, 0.001 to
/// 1,000,000 kg and 1 to 20,000 g, kg that are not within a tenth of what the pieces weigh, a day to come.
/// The dispatch has no number, product, run, person or instant yet.
Result<Dispatch> accept(const DispatchDraft& draft, Day today);

/// What a run made, as far as the book knows it, and what left of it.
struct Baked {
    Grams flour; ///< of its batches that stand
    Grams dough; ///< flour, water, ice and ingredients by the formula, and what was put back as rework
    double bread_yield = 0; ///< kg of bread per kg of flour, as the plant says
    Grams dispatched;       ///< before; what was counted only in pieces is not in it
    int batches = 0;
};

/// What stands against bread of that mass leaving beside what left of the run before. Refused for good: a run
/// of which no batch was mixed, and more bread than its dough weighed (`dough` above the flour: water was
/// logged). More than the flour times the bread yield is an estimate: refused without a reason, taken with
/// one.
Refusals what_stands_against(const Dispatch& dispatch, const Baked& baked);

} // namespace mellowbin
