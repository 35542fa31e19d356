#include "core/percent_words.h"

#include "core/decimal.h"

#include <fmt/format.h>

namespace mellowbin {

std::string percent_of_words(double reached, double asked) {
    const bool read_alike = reached != asked && fixed(reached, 0) == fixed(asked, 0);
    const int decimals = read_alike ? 1 : 0;
    return fmt::format("{} of {} %", fixed(reached, decimals), fixed(asked, decimals));
}

} // namespace mellowbin
