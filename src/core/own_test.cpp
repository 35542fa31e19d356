#include "core/own_test.h"

#include "core/fingerprint.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin {
namespace {

constexpr std::array<std::string_view, 4> names{"no plan", "every lot", "switching rules",
                                                "one lot in so many"};

/// Lots in a row that were inside before some are skipped: from memory, of skip-lot sampling.
constexpr int qualifying_lots = 10;
/// Tightened inspection of a plan that accepts no nonconforming sample takes a larger sample: from memory.
/// Two instead of one is ours.
constexpr int tightened_samples = 2;

std::string joined(const std::vector<std::string>& codes) {
    std::string words;
    for (const auto& code : codes)
        words += (words.empty() ? "" : ", ") + code;
    return words;
}

/// Those that were tested, as inspected lots, with the place each has among all.
struct Inspected {
    std::vector<InspectedLot> lots;
    std::vector<std::string> codes;

    [[nodiscard]] std::string code_at(std::optional<std::size_t> at) const {
        return at ? codes[*at] : std::string();
    }
    [[nodiscard]] std::string codes_at(const std::vector<std::size_t>& places) const {
        std::vector<std::string> found;
        for (const auto at : places)
            found.push_back(codes[at]);
        return joined(found);
    }
};

Inspected inspected(std::span<const TestedLot> lots) {
    Inspected found;
    bool is_mended = false; // also before a lot that was not tested
    for (const auto& lot : lots) {
        is_mended |= lot.is_mended;
        if (!lot.is_inside)
            continue;
        found.lots.push_back({*lot.is_inside, true, is_mended});
        found.codes.push_back(lot.code);
        is_mended = false;
    }
    return found;
}

/// Mended since the last lot that was tested.
bool is_mended_after(std::span<const TestedLot> lots, bool is_mended_since) {
    for (auto lot = lots.rbegin(); lot != lots.rend() && !lot->is_inside; ++lot)
        is_mended_since |= lot->is_mended;
    return is_mended_since;
}

std::string draw_words(int one_in, bool is_drawn) {
    return fmt::format("one lot in {} is drawn, and this one was{}", one_in, is_drawn ? "" : " not");
}

/// "; 3 skipped since W24-118" of those at the end that were not tested; empty: none.
std::string skipped_words(std::span<const TestedLot> before) {
    const auto last = std::find_if(before.rbegin(), before.rend(),
                                   [](const TestedLot& lot) { return lot.is_inside.has_value(); });
    const auto skipped = last - before.rbegin();
    if (skipped == 0 || last == before.rend())
        return {};
    return fmt::format("; {} skipped since {}", skipped, last->code);
}

OwnTestDue drawn_or_not(const OwnTesting& testing, std::string_view mill, std::string_view code,
                        std::span<const TestedLot> before, const std::string& begins) {
    if (code.empty())
        return {
            1, {}, fmt::format("{}one lot in {} is drawn", begins, testing.one_in) + skipped_words(before)};
    const bool is_due = is_drawn(mill, code, testing.one_in);
    return {is_due ? 1 : 0,
            {},
            begins + draw_words(testing.one_in, is_due) + (is_due ? std::string() : skipped_words(before))};
}

OwnTestDue by_switching(const OwnTesting& testing, std::string_view mill, std::string_view code,
                        std::span<const TestedLot> before, bool is_mended_since) {
    const auto tested = inspected(before);
    const auto state = switching_after(tested.lots, 0, is_mended_after(before, is_mended_since));
    const auto since = tested.code_at(state.since);
    OwnTestDue due;
    switch (state.severity) {
    case Severity::normal:
        due = {1, {}, since.empty() ? "normal: every lot" : "normal since " + since + ": every lot"};
        if (!state.because.empty())
            due.why += ", as it was out";
        break;
    case Severity::tightened:
        due = {tightened_samples,
               {},
               fmt::format("tightened since {}: {} were out", since, tested.codes_at(state.because))};
        break;
    case Severity::reduced:
        due = drawn_or_not(testing, mill, code, before, "reduced since " + since + ": ");
        break;
    case Severity::discontinued:
        due = {
            tightened_samples,
            {},
            fmt::format("{} were out while tightened: by the rules nothing more is taken by sampling until "
                        "the mill has mended the cause. Answer the complaint about it once it has",
                        tested.codes_at(state.because))};
        break;
    }
    due.severity = state.severity;
    return due;
}

OwnTestDue by_skipping(const OwnTesting& testing, std::string_view mill, std::string_view code,
                       std::span<const TestedLot> before) {
    const auto tested = inspected(before);
    const auto out = std::find_if(tested.lots.rbegin(), tested.lots.rend(),
                                  [](const InspectedLot& lot) { return !lot.is_accepted; });
    const auto in_a_row = out - tested.lots.rbegin();
    if (in_a_row >= qualifying_lots)
        return drawn_or_not(testing, mill, code, before, "");
    const auto since =
        out == tested.lots.rend()
            ? std::string()
            : fmt::format(" since {} was out",
                          tested.codes[tested.codes.size() - 1 - static_cast<std::size_t>(in_a_row)]);
    return {1,
            {},
            fmt::format("lots are skipped once {} in a row were inside, {} so far{}", qualifying_lots,
                        in_a_row, since)};
}

} // namespace

std::string_view name_of(TestingPlan plan) { return names[static_cast<std::size_t>(plan)]; }

std::optional<TestingPlan> testing_plan_named(std::string_view name) {
    const auto at = std::find(names.begin(), names.end(), name);
    return at == names.end() ? std::nullopt : std::optional(static_cast<TestingPlan>(at - names.begin()));
}

std::string_view source_of(TestingPlan plan) {
    switch (plan) {
    case TestingPlan::switching:
        return "ISO 2859-1, from memory";
    case TestingPlan::skip_lot:
        return "skip-lot sampling, from memory";
    case TestingPlan::none:
    case TestingPlan::every_lot:
        break;
    }
    return {};
}

std::optional<bool> is_inside_by_own_tests(std::span<const Retest> tests, const Specification& specification,
                                           Day delivered_on) {
    std::optional<bool> is_inside;
    for (const auto& test : tests) {
        if (test.is_withdrawn || test.taken_on > delivered_on + tested_as_it_came)
            continue;
        for (const auto& judgement : judge(test.results, specification)) {
            if (judgement.verdict == Verdict::inside)
                is_inside = is_inside.value_or(true);
            else if (judgement.verdict == Verdict::below || judgement.verdict == Verdict::above)
                is_inside = false;
        }
    }
    return is_inside;
}

bool is_drawn(std::string_view mill, std::string_view code, int one_in) {
    if (one_in <= 1)
        return true;
    // Twice, as numbers that follow each other have fingerprints that do so, too, in their last bits.
    const auto once = fingerprint(fmt::format("{}/{}", mill, code));
    return fingerprint(fmt::format("{}", once)) % static_cast<std::uint64_t>(one_in) == 0;
}

OwnTestDue own_test_due(const OwnTesting& testing, std::string_view mill, std::string_view code,
                        std::span<const TestedLot> before, bool is_mended_since) {
    switch (testing.plan) {
    case TestingPlan::none:
        break;
    case TestingPlan::every_lot:
        return {1, {}, "the plant tests every lot"};
    case TestingPlan::switching:
        return by_switching(testing, mill, code, before, is_mended_since);
    case TestingPlan::skip_lot:
        return by_skipping(testing, mill, code, before);
    }
    return {0, {}, "no plan is set"};
}

std::string in_words(const OwnTestDue& due, int taken) {
    if (due.samples == 0)
        return taken > 0 ? fmt::format("Tested, though no own test was due: {}", due.why)
                         : fmt::format("No own test due: {}", due.why);
    if (taken >= due.samples)
        return fmt::format("Tested as the plan asks: {}", due.why);
    const auto samples = due.samples == 1 ? std::string() : fmt::format(", {} samples", due.samples);
    const auto so_far = taken > 0 ? fmt::format(" ({} so far)", taken) : std::string();
    return fmt::format("Test this lot{}{}: {}", samples, so_far, due.why);
}

} // namespace mellowbin
