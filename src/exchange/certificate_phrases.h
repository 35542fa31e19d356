#pragma once

#include <string>
#include <string_view>

namespace mellowbin::exchange {

/// What a label or a line says beside a name, a value and a unit.
struct Phrases {
    std::string basis; ///< as read_basis() reads it
    std::string method;
    std::string nitrogen_factor;
    std::string rest; ///< the text without them and without the brackets that they leave empty
};
/// Takes the moisture basis, the method ("ISO 712", "ICC 107/1", "Kjeldahl") and the nitrogen factor ("N
/// x 5.7") out of a text in one of the four languages. Of two of a kind the first is taken and the second
/// left.
Phrases take_phrases(std::string_view text);

} // namespace mellowbin::exchange
