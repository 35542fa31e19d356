#include "db/complaint_store.h"

#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

std::optional<ComplaintAnswer> answer_from(const Row& row, int first) {
    if (row.is_null(first)) // none yet, or the newest row took one back
        return {};
    return ComplaintAnswer{row.day(first), row.words(first + 1), row.words(first + 2),
                           row.instant(first + 3)};
}

/// The complaints c that the clause names, each with the answer that holds.
std::vector<Complaint> complaints_where(Connection& connection, std::string_view clause,
                                        Parameters parameters) {
    std::vector<Complaint> complaints;
    connection.query(
        fmt::format("SELECT c.id, c.mill_id, c.lot_id, c.property, c.subject, c.words, c.mass_g, "
                    "c.noticed_on, c.who, c.at, w.id, a.answered_on, a.words, a.who, a.at FROM complaint c "
                    "LEFT JOIN complaint w ON w.withdraws_id = c.id "
                    "LEFT JOIN complaint_answer a ON a.id = "
                    "(SELECT MAX(n.id) FROM complaint_answer n WHERE n.complaint_id = c.id) "
                    "WHERE c.withdraws_id IS NULL AND {}",
                    clause),
        parameters, [&](const Row& row) {
            auto& c = complaints.emplace_back();
            c.id = row.id<ComplaintId>(0);
            c.mill = row.id<MillId>(1);
            c.lot = row.maybe_id<LotId>(2);
            c.property = row.maybe_key(3, property_from_key);
            c.subject = row.words(4);
            c.words = row.words(5);
            c.affected = Grams{row.integer(6)};
            c.noticed_on = row.day(7);
            c.who = row.words(8);
            c.logged_at = row.instant(9);
            c.is_withdrawn = !row.is_null(10);
            c.answer = answer_from(row, 11);
        });
    return complaints;
}

void write_row(Change& change, ComplaintId id, const Complaint& c, std::optional<ComplaintId> withdraws) {
    const auto property = c.property ? std::optional(traits(*c.property).key) : std::nullopt;
    change.connection().execute(
        "INSERT INTO complaint (id, mill_id, lot_id, property, subject, words, mass_g, noticed_on, at, who, "
        "withdraws_id, is_open) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)",
        {id, c.mill, c.lot, property, c.subject, c.words, c.affected, c.noticed_on, change.journal_line().at,
         change.journal_line().who, withdraws, withdraws ? 0 : 1});
    change.touches(record_of(withdraws.value_or(id)));
}

void set_open(Change& change, ComplaintId id, bool is_open) {
    change.connection().execute("UPDATE complaint SET is_open = $2 WHERE id = $1", {id, is_open ? 1 : 0});
    change.touches(record_of(id));
}

void write_answer(Change& change, ComplaintId id, const std::optional<Day>& day, std::string_view words) {
    auto& book = change.connection();
    book.execute("INSERT INTO complaint_answer (id, complaint_id, answered_on, words, at, who) "
                 "VALUES ($1, $2, $3, $4, $5, $6)",
                 {next_number(book, "complaint_answer"), id, day, words, change.journal_line().at,
                  change.journal_line().who});
}

Refusal not_there() { return {"Complaint", "is not in the book", "Choose one from the mill's record"}; }
Refusal is_withdrawn() { return {"Complaint", "was withdrawn before", "Look at the mill's record"}; }

} // namespace

std::optional<Complaint> ComplaintStore::find(ComplaintId id) const {
    return only(complaints_where(connection_, "c.id = $1", {id}));
}

std::vector<Complaint> ComplaintStore::of_mill(MillId mill, Day from, Day until) const {
    return complaints_where(connection_,
                            "c.mill_id = $1 AND c.noticed_on BETWEEN $2 AND $3 ORDER BY c.noticed_on, c.id",
                            {mill, from, until});
}

std::vector<Complaint> ComplaintStore::open_of(MillId mill) const {
    return complaints_where(connection_, "c.mill_id = $1 AND c.is_open = 1 ORDER BY c.id", {mill});
}

Result<ComplaintId> ComplaintStore::log(Change& change, const Complaint& complaint) {
    const ComplaintId id{next_number(change.connection(), "complaint")};
    write_row(change, id, complaint, {});
    return id;
}

Result<Done> ComplaintStore::answer(Change& change, ComplaintId id, const ComplaintAnswer& answer) {
    const auto complaint = find(id);
    if (!complaint)
        return change.refuse(not_there());
    if (complaint->is_withdrawn)
        return change.refuse(is_withdrawn());
    if (complaint->answer)
        return change.refuse({"Complaint",
                              fmt::format("was answered on {}: {}", iso(complaint->answer->answered_on),
                                          complaint->answer->words),
                              "Take that answer back first"});
    write_answer(change, id, answer.answered_on, answer.words);
    set_open(change, id, false);
    return Done{};
}

Result<Done> ComplaintStore::take_answer_back(Change& change, ComplaintId id, std::string_view reason) {
    const auto complaint = find(id);
    if (!complaint)
        return change.refuse(not_there());
    if (!complaint->answer)
        return change.refuse({"Complaint", "has no answer to take back", "Look at the mill's record"});
    write_answer(change, id, {}, reason);
    set_open(change, id, !complaint->is_withdrawn);
    return Done{};
}

Result<Done> ComplaintStore::withdraw(Change& change, ComplaintId id, std::string_view reason) {
    auto complaint = find(id);
    if (!complaint)
        return change.refuse(not_there());
    if (complaint->is_withdrawn)
        return change.refuse(is_withdrawn());
    complaint->words = reason;
    write_row(change, ComplaintId{next_number(change.connection(), "complaint")}, *complaint, id);
    set_open(change, id, false);
    return Done{};
}

} // namespace mellowbin
