#pragma once

#include "db/migration.h"
#include "db/progress.h"

#include <SQLiteCpp/Database.h>

#include <span>

namespace mellowbin {

/// Takes the steps that the book has not taken yet, each in a transaction of its own. `share_done` hears of
/// all of them together. Throws SQLite::Exception; a step that was not finished leaves nothing behind.
void bring_to_present_form(SQLite::Database& book, std::span<const Migration> migrations,
                           const ShareDone& share_done = {});

} // namespace mellowbin
