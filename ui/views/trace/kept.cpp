#include "ui/views/trace/kept.h"

#include "ui/views/common/keep_take_back.h"

#include <array>

namespace mellowbin::views {

void keep(auto& k, Kind<HoldQuestion> auto& question) {
    auto& [reason, asked] = question;
    k("reason", reason);
}

void keep(auto& k, Kind<DispatchDraft> auto& draft) {
    auto& [product, run, customer, pieces, kg, piece_g, day, note, reason] = draft;
    k("product", product);
    k("run", run);
    k("customer", customer);
    k("pieces", pieces);
    k("kg", kg);
    k("piece_g", piece_g);
    k("day", day);
    k("note", note);
    k("reason", reason);
}

void keep(auto& k, Kind<ReworkDraft> auto& draft) {
    auto& [from_run, from_batch, into_run, into_batch, kind, kg, note] = draft;
    k("from_run", from_run);
    k("from_batch", from_batch);
    k("into_run", into_run);
    k("into_batch", into_batch);
    k("kind", kind);
    k("kg", kg);
    k("note", note);
}

void keep(auto& k, Kind<SiloSaid> auto& said) {
    auto& [zone, kg] = said;
    k("zone", zone);
    k("kg", kg);
}

void keep(auto& k, Kind<CareTyped> auto& typed) {
    static constexpr std::array<std::string_view, 3> cares{"emptied", "cleaned", "sanitised"};
    auto& [what, day, by, note] = typed;
    keep_word(k, "what", what, cares);
    k("day", day);
    k("by", by);
    k("note", note);
}

void keep_begun(KeptWriter& k, const TraceView& view) {
    const auto begun_before = begun_in(view.dispatch).size() + begun_in(view.rework).size() +
                              begun_in(view.silos).size() + begun_in(view.care).size();
    keep_form(k, "dispatch", view.dispatch, [](std::int64_t) { return std::string("a dispatch"); });
    keep_form(k, "rework", view.rework,
              [](std::int64_t) { return std::string("a note of what was put back"); });
    keep_form(k, "silos", view.silos, [](PlaceId) { return std::string("what is said of a silo"); });
    keep_form(k, "care", view.care, [](PlaceId) { return std::string("what was done to a silo"); });
    keep_question(k, "taking_back", view.taking_back);
    const bool asks = view.taking_back && !view.taking_back->reason.empty();
    const bool holds = view.holding && !view.holding->reason.empty();
    if (holds) {
        k.begun("a hold of everything concerned");
        k("asks", view.asks);
        k("of", view.of);
        k("day", view.day);
        k("holding", view.holding);
    }
    if (begun_before > 0 || asks || holds)
        k("page", view.page);
}

void take_up(KeptReader& k, TraceView& view) {
    take_up_form(k, "dispatch", view.dispatch);
    take_up_form(k, "rework", view.rework);
    take_up_form(k, "silos", view.silos);
    take_up_form(k, "care", view.care);
    take_up_question(k, "taking_back", view.taking_back);
    if (k.has("page")) {
        k("page", view.page);
        view.page = std::clamp<int>(view.page, TraceView::trace_page, TraceView::stock_page);
    }
    if (!k.has("holding"))
        return;
    k("asks", view.asks);
    k("of", view.of);
    k("day", view.day);
    k("holding", view.holding);
    view.has_asked = false; // it is traced anew, and then the question stands again
}

} // namespace mellowbin::views
