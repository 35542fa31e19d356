#pragma once

#include "core/result.h"

#include <string_view>
#include <vector>

/// What every reader of foreign bytes keeps to, whatever the bytes: a source a reader. Under clang each is a
/// fuzzer of its own; in the ordinary tests all of them are given the seeds.
namespace mellowbin::fuzz {

/// Reads the bytes and looks at what came of them; throws where a promise of the reader does not hold.
using Take = void (*)(std::string_view bytes);
struct Target {
    const char* name; ///< of its source: "scan" of scan_target.cpp
    Take take;
};

/// Those of this program: one of a fuzzer, all of the tests.
std::vector<Target>& targets();

/// `const Registered target{"scan", take};` stands at the end of a target's source.
struct Registered {
    Registered(const char* name, Take take) { targets().push_back({name, take}); }
};

/// Throws std::logic_error with the words where it does not hold: a crash to the fuzzer, a failure to a test.
void expect(bool holds, const char* words);

/// Text that a screen and a JSON file can show: UTF-8, nothing of it cut in the midst of a character.
void expect_text(std::string_view words);

/// At least one reason, each with words of what is wrong, and all together not out of proportion to what was
/// read.
void expect_well_said(const Refusals& refusals, std::string_view bytes);

} // namespace mellowbin::fuzz
