#include "app/acts/mill_words.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/mill_words.h"
#include "app/models/mill_words.h"
#include "core/draft_reader.h"
#include "core/typed_text.h"
#include "db/mill_word_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

const MeaningChoice* choice_of(const std::string& means) {
    const auto& choices = meaning_choices();
    const auto at = std::find_if(choices.begin(), choices.end(),
                                 [&](const MeaningChoice& one) { return one.key == means; });
    return at == choices.end() ? nullptr : &*at;
}

Refusals against(const MillWord& word) {
    if (word.kind == MillWordKind::label)
        return app::against(
            LabelSaid{word.word, word.means, word.unit, word.basis, word.method, word.nitrogen_factor});
    if (trimmed(word.means).empty())
        return {{fmt::format("{}: Means", word.word), "is empty", "Say what it means, or forget it"}};
    return {};
}

MillWord as_kept(MillWord word) {
    word.basis = basis_as_kept(word.basis);
    word.method = trimmed(word.method);
    word.nitrogen_factor = trimmed(word.nitrogen_factor);
    return word;
}

/// It is as somebody looked at it who wants to change it.
bool is_as_it_was(const Book& book, const MillWordChange& change) {
    const auto& about = change.before ? *change.before : *change.after;
    const auto* now = word_in(book, about);
    return change.before ? now && means_same(*now, *change.before) : !now;
}

std::string change_in_words(const MillWordChange& change) {
    if (!change.after)
        return name_of(*change.before) + " is forgotten";
    return in_words(as_kept(*change.after));
}

} // namespace

std::string basis_as_kept(const std::string& typed) {
    const auto basis = read_basis("Basis", typed);
    return basis ? in_words(*basis) : typed;
}

Refusals against(const LabelSaid& said) {
    Refusals refusals;
    const auto refuse = [&](const char* field, const std::string& what, const std::string& remedy) {
        refusals.push_back({fmt::format("{}: {}", said.label, field), what, remedy});
    };
    const auto* means = choice_of(said.means);
    if (!means)
        refuse("Means", fmt::format("\"{}\" is nothing that a certificate says", excerpt(said.means)),
               "Choose one from the list");
    else if (!said.unit.empty() &&
             std::find(means->units.begin(), means->units.end(), said.unit) == means->units.end())
        refuse("Unit", fmt::format("\"{}\" is no unit of {}", excerpt(said.unit), means->name),
               fmt::format("Choose one of: {}", fmt::join(means->units, ", ")));
    if (const auto basis = read_basis("Basis", said.basis); !basis)
        refuse("Basis", basis.refusals().front().what, basis.refusals().front().remedy);
    DraftReader reader;
    static_cast<void>(reader.number("Nitrogen factor", said.nitrogen_factor, {5, 7, ""}));
    for (const auto& refusal : reader.refusals)
        refuse("Nitrogen factor", refusal.what, refusal.remedy);
    return refusals;
}

Result<Told> carry_out(State& state, const ChangeMillWords& act) {
    const Mill* mill = state.book.mill(act.mill);
    if (!mill || act.changes.empty())
        return Refusal{"Mill", "is not in the book", "Look at the list again"};
    Refusals refusals;
    ChangeMillWords back{act.mill, {}};
    std::string detail;
    for (const auto& change : act.changes) {
        if (!is_as_it_was(state.book, change)) {
            const auto& about = change.before ? *change.before : *change.after;
            refusals.push_back({name_of(about), "was changed meanwhile", "Look at it, and change it anew"});
        }
        if (change.after)
            append(refusals, against(*change.after));
        back.changes.push_back(
            {change.after ? std::optional(as_kept(*change.after)) : std::nullopt, change.before});
        detail += (detail.empty() ? "" : "\n") + change_in_words(change);
    }
    if (!refusals.empty())
        return refusals;
    const auto words = act.changes.size() == 1 ? fmt::format("{}, on certificates: {}", mill->name, detail)
                                               : fmt::format("{}, on certificates: {} words changed",
                                                             mill->name, act.changes.size());
    Change change = state.change("change_mill_words", {"mill " + mill->name, record_of(mill->id)}, words);
    change.journal_line().detail = act.changes.size() == 1 ? "" : detail;
    MillWordStore store(*state.connection);
    for (const auto& [before, after] : act.changes)
        if (after)
            store.keep(change, as_kept(*after));
        else
            store.forget(change, *before);
    change.commit();
    ++state.mill_words_changed;
    return Told{words, Touched::nothing, "Undo: as it was", {back}};
}

} // namespace mellowbin::app
