#pragma once

#include <cstdint>
#include <string>

namespace mellowbin::app {

struct JournalRow {
    std::int64_t id = 0;
    std::string at, who, what, subject, words;

    friend bool operator==(const JournalRow&, const JournalRow&) = default;
};

} // namespace mellowbin::app
