#pragma once

#include <string>

/// How long a dough ferments, in words.
namespace mellowbin::app {

/// "70 min", from two hours on "2 h 10 min".
std::string fermentation_in_words(int minutes);

/// Of minutes in all and those of them that a run takes longer for strength its flour lacks: "45 and 25
/// longer for strength"; empty where it takes none.
std::string longer_in_words(int minutes, int longer);

/// Both: "70 min: 45 and 25 longer for strength"; "45 min".
std::string fermentation_and_why(int minutes, int longer);

} // namespace mellowbin::app
