#include "ui/views/lots/kept.h"

#include "app/acts/looking.h"
#include "ui/views/common/keep_take_back.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::views {

void keep(auto& k, Kind<BakeDraft> auto& draft) {
    auto& [substance, dose, measure, size, baked_on, note] = draft;
    k("substance", substance);
    k("dose", dose);
    k("measure", measure);
    k("size", size);
    k("baked_on", baked_on);
    k("note", note);
}

void keep(auto& k, Kind<ConcessionDraft> auto& draft) {
    auto& [deviation, by, until, products, for_all] = draft;
    k("deviation", deviation);
    k("by", by);
    k("until", until);
    k("products", products);
    k("for_all", for_all);
}

void keep(auto& k, Kind<LotQuestion> auto& question) {
    static constexpr std::array<std::string_view, 12> deeds{
        "release", "hold",      "reject",    "extend",     "move",           "count",
        "waste",   "give_back", "take_back", "judge_anew", "end_concession", "to_mill"};
    static constexpr std::array<std::string_view, 5> states{"awaiting_judgement", "held", "released",
                                                            "rejected", "used_up"};
    auto& [deed, lot, code, state, place, place_name, booked, movement, movement_words, kg, reason, until, to,
           run, with_concession, concession, first, document, asked] = question;
    keep_word(k, "deed", deed, deeds);
    k("lot", lot);
    k("code", code);
    keep_word(k, "state", state, states);
    k("place", place);
    k("place_name", place_name);
    k("booked", booked);
    k("movement", movement);
    k("movement_words", movement_words);
    k("kg", kg);
    k("reason", reason);
    k("until", until);
    k("to", to);
    k("run", run);
    k("with_concession", with_concession);
    k("concession", concession);
    k("first", first);
    k("document", document);
}

void keep(auto& k, Kind<SourceSaving> auto& saving) {
    auto& [is_open, path, asked] = saving;
    k("is_open", is_open);
    k("path", path);
}

namespace {

using Deed = LotQuestion::Deed;

/// A run that is the only one is chosen by itself.
bool is_begun(const LotQuestion& q) {
    return !(q.kg + q.reason + q.until + q.document).empty() || q.to.is_known() || q.with_concession ||
           q.concession != q.first;
}

std::string words_of(const LotQuestion& q) {
    switch (q.deed) {
    case Deed::release:
        return "the release of lot " + q.code;
    case Deed::hold:
        return "a hold of lot " + q.code;
    case Deed::reject:
        return "the rejection of lot " + q.code;
    case Deed::extend:
        return "a later last day of lot " + q.code;
    case Deed::move:
        return fmt::format("a move of {} from {}", q.code, q.place_name);
    case Deed::count:
        return fmt::format("a count of {} in {}", q.code, q.place_name);
    case Deed::waste:
        return fmt::format("flour of {} to write off in {}", q.code, q.place_name);
    case Deed::give_back:
        return fmt::format("flour of {} that comes back", q.code);
    case Deed::take_back:
        return fmt::format("a movement of {} to take back", q.code);
    case Deed::judge_anew:
        return "a concession of lot " + q.code;
    case Deed::end_concession:
        return "the end of a concession of lot " + q.code;
    case Deed::to_mill:
        return fmt::format("a return of {} to the mill", q.code);
    }
    return {};
}

/// "lot W24-118"; "a lot" where it is not at hand.
std::string name_of(LotId lot, const app::LotsModel& model) {
    if (model.opened && model.opened->row.id == lot)
        return "lot " + model.opened->row.code;
    const auto at = std::find_if(model.rows.begin(), model.rows.end(),
                                 [&](const app::LotRow& row) { return row.id == lot; });
    return at == model.rows.end() ? "a lot" : "lot " + at->code;
}

} // namespace

void keep_begun(KeptWriter& k, const LotsView& view, const app::LotsModel& model) {
    if (view.question && is_begun(*view.question)) {
        k.begun(words_of(*view.question));
        k("question", *view.question);
    }
    keep_form(k, "retests", view.retest, [&](LotId lot) { return "a retest of " + name_of(lot, model); });
    keep_form(k, "bakes", view.bakes.form, [&](LotId lot) { return "a loaf of " + name_of(lot, model); });
    keep_question(k, "taking_back", view.withdrawing);
    if (!view.saving.path.empty()) {
        k.begun("a certificate's file to save, of " + name_of(view.opened, model));
        k("saving", view.saving);
    }
    k("opened", view.opened);
    k("page", view.page);
    k("retest_is_open", view.retest.is_open);
    k("bake_is_open", view.bakes.form.is_open);
}

void take_up(KeptReader& k, LotsView& view, app::Intents& out) {
    if (!view.question && k.has("question"))
        k("question", view.question);
    if (view.saving.path.empty() && k.has("saving"))
        k("saving", view.saving);
    const auto retests = take_up_form(k, "retests", view.retest);
    const auto bakes = take_up_form(k, "bakes", view.bakes.form);
    take_up_question(k, "taking_back", view.withdrawing);
    if (bool was_open = false; k("retest_is_open", was_open), was_open && !retests.empty())
        view.retest.is_open = true;
    if (bool was_open = false; k("bake_is_open", was_open), was_open && !bakes.empty())
        view.bakes.form.is_open = true;
    LotId opened;
    k("opened", opened);
    k("page", view.page);
    view.page = std::clamp(view.page, 0, LotsView::last_page);
    if (view.question)
        opened = view.question->lot;
    if (!opened.is_known())
        return;
    view.shows_sheet = true;
    out.emplace_back(app::OpenLot{opened});
}

} // namespace mellowbin::views
