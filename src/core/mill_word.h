#pragma once

#include "core/day.h"
#include "core/id.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// What a word on a mill's papers is.
enum class MillWordKind {
    label,    ///< of a figure or a fact: "Feuchtkleber"
    mill,     ///< its name for itself
    flour,    ///< for a flour
    place,    ///< for a place
    dates,    ///< no word: in which order it writes days
    decimals, ///< no word: how it marks decimals
};
std::string_view key_of(MillWordKind kind);
std::optional<MillWordKind> mill_word_kind_from_key(std::string_view key);

/// What a word of a mill's certificates means at this plant, as a person confirmed it, and what the papers
/// leave unsaid of it.
struct MillWord {
    MillId mill;
    MillWordKind kind{};
    std::string word;  ///< as words are compared; empty of dates and decimals
    std::string shown; ///< as it stood on the paper
    std::string means; ///< key of a property, a lot's fact, a substance or "left_out"; the plant's own name
    std::string unit, basis, method, nitrogen_factor; ///< where the papers print none
    Instant since{};
    std::string who;

    friend bool operator==(const MillWord&, const MillWord&) = default;
};

/// The same word of the same mill, whatever it means.
bool is_same_word(const MillWord& one, const MillWord& other);
/// It means the same; whoever said so, and when.
bool means_same(const MillWord& one, const MillWord& other);

} // namespace mellowbin
