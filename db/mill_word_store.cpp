#include "db/mill_word_store.h"

#include "db/numbering.h"

namespace mellowbin {

std::vector<MillWord> MillWordStore::holding() const {
    std::vector<MillWord> words;
    connection_.query(
        "SELECT mill_id, kind, word, shown, means, unit, basis, method, nitrogen_factor, at, who "
        "FROM mill_word WHERE holds = 1 ORDER BY id",
        {}, [&](const Row& row) {
            auto& word = words.emplace_back();
            word.mill = row.id<MillId>(0);
            word.kind = row.key(1, mill_word_kind_from_key);
            word.word = row.words(2);
            word.shown = row.words(3);
            word.means = row.words(4);
            word.unit = row.words(5);
            word.basis = row.words(6);
            word.method = row.words(7);
            word.nitrogen_factor = row.words(8);
            word.since = row.instant(9);
            word.who = row.words(10);
        });
    return words;
}

void MillWordStore::forget(Change& change, const MillWord& word) {
    change.connection().execute(
        "UPDATE mill_word SET holds = 0 WHERE mill_id = $1 AND kind = $2 AND word = $3 AND holds = 1",
        {word.mill, key_of(word.kind), word.word});
    change.touches(record_of(word.mill));
}

void MillWordStore::keep(Change& change, const MillWord& word) {
    forget(change, word);
    change.connection().execute(
        "INSERT INTO mill_word (id, mill_id, kind, word, shown, means, unit, basis, method, nitrogen_factor, "
        "at, who, holds) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, 1)",
        {next_number(change.connection(), "mill_word"), word.mill, key_of(word.kind), word.word, word.shown,
         word.means, word.unit, word.basis, word.method, word.nitrogen_factor, change.journal_line().at,
         change.journal_line().who});
}

} // namespace mellowbin
