#pragma once

#include "core/result.h"
#include "support/catch.h"

namespace mellowbin::testing {

/// The reasons given for one field, each as the person reads it.
inline std::vector<std::string> reasons_for(const Refusals& refusals, const std::string& field) {
    std::vector<std::string> words;
    for (const auto& refusal : refusals)
        if (refusal.field == field)
            words.push_back(in_words(refusal));
    return words;
}

/// All reasons in one text, for messages and for looking a word up.
inline std::string all_words(const Refusals& refusals) {
    std::string words;
    for (const auto& refusal : refusals)
        words += in_words(refusal) + "\n";
    return words;
}

inline bool says(const std::string& words, const std::string& part) {
    return words.find(part) != std::string::npos;
}

} // namespace mellowbin::testing
