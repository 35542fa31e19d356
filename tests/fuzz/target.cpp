#include "fuzz/target.h"

#include "core/typed_text.h"

#include <stdexcept>

namespace mellowbin::fuzz {

std::vector<Target>& targets() {
    static std::vector<Target> all;
    return all;
}

void expect(bool holds, const char* words) {
    if (!holds)
        throw std::logic_error(words);
}

void expect_text(std::string_view words) {
    while (!words.empty()) {
        const auto length = character_length(words);
        expect(length > 0, "words are text in UTF-8");
        words.remove_prefix(length);
    }
}

void expect_well_said(const Refusals& refusals, std::string_view bytes) {
    constexpr std::size_t words_a_byte = 500; // a line of one letter may be wrong, and is told as a line
    expect(!refusals.empty(), "a refusal has a reason");
    std::size_t said = 0;
    for (const auto& refusal : refusals) {
        expect(!refusal.what.empty(), "a reason says what is wrong");
        expect_text(refusal.field);
        expect_text(refusal.what);
        expect_text(refusal.remedy);
        said += in_words(refusal).size();
    }
    expect(said <= words_a_byte * (bytes.size() + 10), "what is said is in proportion to what was read");
}

} // namespace mellowbin::fuzz
