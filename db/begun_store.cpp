#include "db/begun_store.h"

#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

std::vector<BegunDelivery> begun_where(Connection& connection, std::string_view clause,
                                       Parameters parameters) {
    std::vector<BegunDelivery> all;
    connection.query(
        fmt::format("SELECT id, who, station, at, how_far, text_form, hold, held_by, held_station, "
                    "held_since, state FROM begun_delivery WHERE {} ORDER BY id",
                    clause),
        parameters, [&](const Row& row) {
            auto& one = all.emplace_back();
            one.id = row.id<BegunId>(0);
            one.who = row.words(1);
            one.station = row.words(2);
            one.at = row.instant(3);
            one.how_far = row.words(4);
            one.text_form = row.words(5);
            one.hold = row.integer(6);
            if (row.text(10) == "taken_over")
                one.holder = BegunHolder{row.words(7), row.words(8), row.instant(9)};
        });
    return all;
}

std::string state_of(Connection& connection, BegunId id) {
    std::string state;
    connection.query("SELECT state FROM begun_delivery WHERE id = $1", {id},
                     [&](const Row& row) { state = row.words(0); });
    return state;
}

void write_text(Connection& connection, BegunId id, const KeptText& text) {
    connection.execute("DELETE FROM begun_delivery_text WHERE begun_id = $1", {id});
    for (const auto& [path, typed] : text.fields)
        connection.execute("INSERT INTO begun_delivery_text (begun_id, path, typed) VALUES ($1, $2, $3)",
                           {id, path, typed});
}

Refusal has_it(const BegunHolder& holder) {
    return {"Begun delivery",
            fmt::format("{}{} has it", holder.who, holder.station.empty() ? "" : " at " + holder.station),
            "Ask them to put it aside, or take it over from them"};
}

/// Why it is not open; nothing: it is.
std::optional<Refusal> why_not_open(Connection& connection, BegunId id) {
    const auto state = state_of(connection, id);
    if (state == "waits" || state == "taken_over")
        return {};
    return Refusal{"Begun delivery",
                   state.empty()        ? "is not in the book"
                   : state == "came_in" ? "came in meanwhile"
                                        : "was thrown away meanwhile",
                   "Look at the list of deliveries that are begun"};
}

void set_state(Change& change, BegunId id, std::string_view state) {
    change.connection().execute("UPDATE begun_delivery SET state = $2 WHERE id = $1", {id, state});
    change.touches(record_of(id));
}

} // namespace

std::vector<BegunDelivery> BegunStore::open() const {
    return begun_where(connection_, "state IN ('waits', 'taken_over')", {});
}

std::optional<BegunDelivery> BegunStore::find(BegunId id) const {
    auto found = only(begun_where(connection_, "id = $1", {id}));
    if (!found)
        return {};
    found->text.begun = {found->how_far};
    connection_.query("SELECT path, typed FROM begun_delivery_text WHERE begun_id = $1", {id},
                      [&](const Row& row) { found->text.fields.emplace(row.words(0), row.words(1)); });
    return found;
}

Result<BegunId> BegunStore::put_aside(Change& change, const BegunDelivery& delivery, const BegunHold& from) {
    auto& book = change.connection();
    if (from.is_held())
        if (const auto mine = holds(change, from); !mine)
            return mine.refusals();
    const BegunId id = number_for(book, "begun_delivery", from.delivery);
    const auto& line = change.journal_line();
    book.execute(
        "INSERT INTO begun_delivery (id, who, station, at, how_far, text_form, state, hold, held_by, "
        "held_station, held_since) VALUES ($1, $2, $3, $4, $5, $6, 'waits', $7, '', '', NULL) "
        "ON CONFLICT (id) DO UPDATE SET who = excluded.who, station = excluded.station, at = excluded.at, "
        "how_far = excluded.how_far, text_form = excluded.text_form, state = 'waits'",
        {id, line.who, delivery.station, line.at, delivery.how_far, delivery.text_form, from.hold});
    write_text(book, id, delivery.text);
    change.touches(record_of(id));
    return id;
}

Result<BegunHold> BegunStore::take_over(Change& change, BegunId id, const BegunHolder& holder,
                                        TakeFrom from) {
    auto& book = change.connection();
    if (const auto why = why_not_open(book, id))
        return change.refuse(*why);
    const auto now = BegunStore(book).find(id);
    if (now->holder && from == TakeFrom::where_it_waits)
        return change.refuse(has_it(*now->holder));
    const BegunHold hold{id, now->hold + 1};
    book.execute(
        "UPDATE begun_delivery SET state = 'taken_over', hold = $2, held_by = $3, held_station = $4, "
        "held_since = $5 WHERE id = $1",
        {id, hold.hold, holder.who, holder.station, holder.since});
    change.touches(record_of(id));
    return hold;
}

Result<Done> BegunStore::holds(Change& change, const BegunHold& hold) const {
    auto& book = change.connection();
    if (const auto why = why_not_open(book, hold.delivery))
        return change.refuse(*why);
    const auto now = BegunStore(book).find(hold.delivery);
    if (now->holder && now->hold == hold.hold)
        return Done{};
    if (now->holder)
        return change.refuse(has_it(*now->holder));
    return change.refuse({"Begun delivery", "was put aside again meanwhile", "Take it over once more"});
}

Result<Done> BegunStore::came_in(Change& change, const BegunHold& hold) {
    if (const auto mine = holds(change, hold); !mine)
        return mine.refusals();
    set_state(change, hold.delivery, "came_in");
    return Done{};
}

Result<Done> BegunStore::throw_away(Change& change, const BegunHold& hold) {
    auto& book = change.connection();
    if (const auto why = why_not_open(book, hold.delivery))
        return change.refuse(*why);
    const auto now = BegunStore(book).find(hold.delivery);
    if (now->holder && now->hold != hold.hold)
        return change.refuse(has_it(*now->holder));
    set_state(change, hold.delivery, "thrown_away");
    return Done{};
}

Result<Done> BegunStore::bring_back(Change& change, BegunId id) {
    if (state_of(change.connection(), id) != "thrown_away")
        return change.refuse(
            {"Begun delivery", "was not thrown away", "Look at the list of deliveries that are begun"});
    set_state(change, id, "waits");
    return Done{};
}

} // namespace mellowbin
