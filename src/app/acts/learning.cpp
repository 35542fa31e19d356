#include "app/acts/learning.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/models/learning.h"
#include "db/retest_store.h"
#include "exchange/lesson.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

/// From the lots that were tested, however long ago.
aging::Learned learned_now(const State& state) {
    Book book = state.book;
    for (const auto lot : RetestStore(*state.connection).tested_lots(most_taught_by))
        book.call_up(*state.connection, lot);
    Estimates estimates = state.estimates;
    estimates.follow(book, state.today());
    return learned_from(book, estimates);
}

std::vector<LotId> lots_of(const aging::Learned& learned) {
    std::vector<LotId> lots;
    for (const auto& lesson : learned.lessons())
        lots.push_back(lesson.lot);
    return lots;
}

std::string lots_in_words(std::size_t count) {
    return fmt::format("{} {}", count, count == 1 ? "lot" : "lots");
}

} // namespace

Result<Told> carry_out(State& state, const CompareLearned&) {
    state.offered = learned_now(state);
    state.book.name_lots(*state.connection, lots_of(*state.offered));
    return Told{"", Touched::comparison};
}

Result<Told> carry_out(State& state, const AdoptLearned&) {
    const auto learned = learned_now(state);
    if (const auto why = too_little(learned); !why.empty())
        return Refusal{"Learned figures", why, "Log retests of more lots"};
    const std::string words =
        fmt::format("The plant's own figures hold, learned from {}", lots_in_words(learned.lessons().size()));
    std::vector<LearningSite> sites;
    for (const auto& lesson : learned.lessons())
        sites.push_back({lesson.lot, exchange::lesson_as_json(lesson)});
    const LearningId before = state.book.learning ? state.book.learning->id : LearningId{};
    Change change = state.change("adopt_learned", "learning", words);
    change.journal_line().detail = changes_in_words(learned);
    const auto id = LearningStore(*state.connection).adopt(change, words, sites);
    if (!id)
        return change.refuse(id.refusals());
    change.commit();
    return Told{words,
                Touched::nothing,
                before.is_known() ? "Undo: what was learned before holds again"
                                  : "Undo: the published figures hold again",
                {RestoreLearned{before}}};
}

Result<Told> carry_out(State& state, const RestoreLearned& intent) {
    const LearningId before = state.book.learning ? state.book.learning->id : LearningId{};
    const std::string words = intent.learning.is_known() ? "What was learned before holds again"
                                                         : std::string("The published figures hold again");
    Change change = state.change("restore_learned", "learning", words);
    const auto id = LearningStore(*state.connection).restore(change, intent.learning, words);
    if (!id)
        return change.refuse(id.refusals());
    change.commit();
    return Told{words, Touched::nothing, "Undo: what was learned holds again", {RestoreLearned{before}}};
}

} // namespace mellowbin::app
