#include "core/retest.h"

#include "core/draft_reader.h"

namespace mellowbin {
namespace {

/// Flour of an unknown milling day may have been tested before it came, but not long before (an assumption:
/// flour reaches a bakery within two months of its milling).
constexpr Days longest_before_delivery{60};

Day read_day_taken(const RetestDraft& draft, const RetestContext& context, DraftReader& reader) {
    constexpr const char* field = "Taken on";
    const auto typed = reader.day(field, draft.taken_on);
    const Day taken_on = typed.value_or(context.today);
    const Lot& lot = context.lot;
    if (taken_on > context.today) {
        reader.refuse(field,
                      fmt::format("{} was read, which is after today, {}", iso(taken_on), iso(context.today)),
                      "Log a result once the sample has been taken");
    }
    if (lot.milled_on && taken_on < *lot.milled_on) {
        reader.refuse(field,
                      fmt::format("{} was read, which is before the milling of lot {} on {}", iso(taken_on),
                                  lot.code, iso(*lot.milled_on)),
                      "Check the day, and that the sample is of this lot");
    }
    if (!lot.milled_on && taken_on < lot.delivered_on - longest_before_delivery) {
        reader.refuse(field,
                      fmt::format("{} was read; {} is the earliest expected, {} days before the delivery of "
                                  "lot {} on {}, as its milling date is not known",
                                  iso(taken_on), iso(lot.delivered_on - longest_before_delivery),
                                  longest_before_delivery.count(), lot.code, iso(lot.delivered_on)),
                      "Check the day, and that the sample is of this lot");
    }
    return taken_on;
}

} // namespace

FigureDraft& RetestDraft::figure(Property property) { return figure_of(figures, property); }

Result<Retest> accept(const RetestDraft& draft, const RetestContext& context) {
    DraftReader reader;
    Retest retest;
    retest.lot = context.lot.id;
    retest.taken_on = read_day_taken(draft, context, reader);
    if (!trimmed(draft.place).empty())
        retest.place = reader.known("Place", draft.place, context.places);
    retest.note = trimmed(draft.note);
    const bool is_blank = std::all_of(draft.figures.begin(), draft.figures.end(),
                                      [](const FigureDraft& f) { return trimmed(f.value).empty(); });
    if (is_blank)
        reader.refuse("Results", "no figure was read; one at least is expected",
                      "Enter what the laboratory measured");
    retest.results = read_figures(draft.figures, ZeroFigures::are_refused, reader);
    if (!reader.refusals.empty())
        return reader.refusals;
    return retest;
}

} // namespace mellowbin
