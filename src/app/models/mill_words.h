#pragma once

#include "core/mill_word.h"

#include <string>
#include <vector>

/// What the words on mills' certificates mean, to be looked at and changed.
namespace mellowbin::app {

struct MillWordRow {
    MillWord word;
    std::string shown; ///< "Feuchtkleber"; "Days" and "Decimals" where it is no word
    std::string means; ///< "Wet gluten", "the day before the month"
    std::string since; ///< "24 Nov 14:20, Ines"
};

/// As it stands on the paper: "Feuchtkleber"; "Days" and "Decimals" where it is no word.
std::string name_of(const MillWord& word);
/// "Wet gluten", "Left out", "the day before the month".
std::string meaning_in_words(const MillWord& word);
/// "Feuchtkleber: Wet gluten, 14 % moisture, ICC 155".
std::string in_words(const MillWord& word);

struct Station;

/// Those of all mills that hold.
std::vector<MillWordRow> make_mill_words(const Station& station);

} // namespace mellowbin::app
