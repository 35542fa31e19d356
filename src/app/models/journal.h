#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {
struct JournalLine;
}

namespace mellowbin::app {

struct Station;

struct JournalRow {
    std::int64_t id = 0;
    std::string at; ///< by the plant's clock: "24 Nov 14:20"
    std::string who, what, subject;
    std::string words;        ///< a sentence: "Lot OF-1021 released: ash was right the second time"
    std::string act = {};     ///< `what` for people: "Lot released"
    std::string instant = {}; ///< ISO 8601, UTC: for programs

    friend bool operator==(const JournalRow&, const JournalRow&) = default;
};

/// A kind of act: its key in the journal, and what people call it.
struct ActWords {
    std::string_view key, words;
};
const std::vector<ActWords>& all_act_words();
/// "hold_lot" -> "Lot put on hold". A key that this version does not know is said as it is, without its
/// lower lines.
std::string act_in_words(std::string_view key);

JournalRow journal_row(const Station& station, const JournalLine& line);

} // namespace mellowbin::app
