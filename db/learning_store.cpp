#include "db/learning_store.h"

#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

/// The rows of the table `learning` that the clause names, in order, each with its sites.
std::vector<Learning> learnings_where(Connection& connection, std::string_view clause,
                                      Parameters parameters) {
    std::vector<Learning> found;
    connection.query(
        fmt::format("SELECT id, at, who, words, restores_id FROM learning {} ORDER BY id", clause),
        parameters, [&](const Row& row) {
            found.push_back({row.id<LearningId>(0),
                             row.instant(1),
                             row.words(2),
                             row.words(3),
                             row.maybe_id<LearningId>(4),
                             {}});
        });
    auto owner = found.begin();
    connection.query(
        fmt::format("SELECT learning_id, lot_id, document FROM learning_site WHERE learning_id IN "
                    "(SELECT id FROM learning {}) ORDER BY learning_id, position",
                    clause),
        parameters, [&](const Row& row) {
            while (owner != found.end() && owner->id < row.id<LearningId>(0))
                ++owner;
            if (owner != found.end())
                owner->sites.push_back({row.id<LotId>(1), row.words(2)});
        });
    return found;
}

LearningId write_row(Change& change, std::string_view words, std::optional<LearningId> restores) {
    const LearningId id{next_number(change.connection(), "learning")};
    Value restores_value;
    if (restores) // 0 is no record's number here but the published figures, and no null
        restores_value = restores->number();
    change.connection().execute(
        "INSERT INTO learning (id, at, who, words, restores_id) VALUES ($1, $2, $3, $4, $5)",
        {id, change.journal_line().at, change.journal_line().who, words, restores_value});
    change.touches(record_of(id));
    return id;
}

} // namespace

std::vector<Learning> LearningStore::all() const { return learnings_where(connection_, "", {}); }

std::optional<Learning> LearningStore::newest() const {
    return only(learnings_where(connection_, "WHERE id = (SELECT MAX(id) FROM learning)", {}));
}

std::optional<Learning> LearningStore::find(LearningId id) const {
    return only(learnings_where(connection_, "WHERE id = $1", {id}));
}

std::optional<Learning> LearningStore::holding() const {
    auto holds = newest();
    if (!holds || !holds->restores)
        return holds;
    return find(*holds->restores); // 0 is no record's number
}

Result<LearningId> LearningStore::adopt(Change& change, std::string_view words,
                                        std::span<const LearningSite> sites) {
    if (sites.empty())
        return change.refuse({"Learning", "no lot says anything about it", "Log retests of more lots first"});
    const LearningId id = write_row(change, words, {});
    int position = 0;
    for (const auto& site : sites)
        change.connection().execute(
            "INSERT INTO learning_site (learning_id, position, lot_id, document) VALUES ($1, $2, $3, $4)",
            {id, position++, site.lot, site.document});
    return id;
}

Result<LearningId> LearningStore::restore(Change& change, LearningId id, std::string_view words) {
    const auto wanted = find(id);
    if (id.is_known() && (!wanted || wanted->restores))
        return change.refuse({"Learning", "is no adoption of this book", "Choose one from the list"});
    const auto holds = holding();
    if ((holds ? holds->id : LearningId{}) == id)
        return change.refuse({"Learning", "holds already", "There is nothing to restore"});
    return write_row(change, words, id);
}

} // namespace mellowbin
