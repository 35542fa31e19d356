#include "db/last_change.h"

#include "db/connection.h"

namespace mellowbin {

Fate look_again(Connection& connection, const LastChange& change) {
    Fate fate = Fate::not_in_the_book;
    connection.query("SELECT who, words FROM journal WHERE id = $1", {change.line}, [&](const Row& row) {
        if (row.text(0) == change.who && row.text(1) == change.words)
            fate = Fate::in_the_book;
    });
    return fate;
}

} // namespace mellowbin
