#pragma once

#include "core/retest.h"
#include "core/sampling.h"
#include "core/specification.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// Which lots of a mill a plant tests by itself. It advises: it releases nothing and lifts no hold, and
/// quality may always test.
namespace mellowbin {

enum class TestingPlan { none, every_lot, switching, skip_lot };
/// "no plan", "every lot", "switching rules", "one lot in so many"
std::string_view name_of(TestingPlan plan);
std::optional<TestingPlan> testing_plan_named(std::string_view name);

struct OwnTesting {
    TestingPlan plan = TestingPlan::none;
    int one_in = 4; ///< lots of which one is tested, where not all of them are
};

/// What the plan rests on, to stand beside what it says: "ISO 2859-1, from memory"; empty: on nothing but the
/// plant's choice.
std::string_view source_of(TestingPlan plan);

/// A lot of a mill's flour, as the plant's own tests found it when it came.
struct TestedLot {
    std::string code;
    std::optional<bool>
        is_inside;          ///< nothing: not tested then, or by nothing that the specification asks for
    bool is_mended = false; ///< since the lot before, the mill answered a complaint
};

/// A lot is judged by what was tested within so many days of its delivery: later tests follow its aging.
inline constexpr Days tested_as_it_came{14};
/// Whether own tests of a lot, taken as it came, are inside the specification: all of them; nothing where
/// none has anything to compare. Those that were withdrawn do not count.
std::optional<bool> is_inside_by_own_tests(std::span<const Retest> tests, const Specification& specification,
                                           Day delivered_on);

/// What the plan asks for of one lot.
struct OwnTestDue {
    int samples = 0;                  ///< to be tested; 0: none is due
    std::optional<Severity> severity; ///< of the switching rules
    std::string why;                  ///< "tightened since W24-120: W24-118, W24-120 were out"
};

/// One lot in so many is drawn by its mill and its number: the same lot always or never, and no mill can know
/// which. Selection is to be at random (7 CFR 42.123, note 2; ISO 2859-3 by its abstract).
bool is_drawn(std::string_view mill, std::string_view code, int one_in);

/// Of the lot of this mill and number (none: of whichever comes next), after the lots of the same flour that
/// came before it, oldest first. `is_mended_since`: the mill answered a complaint after the last of them.
OwnTestDue own_test_due(const OwnTesting& testing, std::string_view mill, std::string_view code,
                        std::span<const TestedLot> before, bool is_mended_since);

/// "Test this lot, 2 samples: …" or "No own test due: …"; `taken`: own tests of it there are.
std::string in_words(const OwnTestDue& due, int taken);

} // namespace mellowbin
