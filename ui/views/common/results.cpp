#include "ui/views/common/results.h"

#include "app/models/story.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace mellowbin::views {
namespace {

using ui::Role;

/// "Retest of 2026-11-24, Bay 2, by Ines"
std::string sample_words(const app::TestRow& test) {
    std::string words = fmt::format("{} of {}", test.retest ? "Retest" : "Certificate", iso(test.taken_on));
    if (!test.place.empty())
        words += ", " + test.place;
    if (!test.who.empty())
        words += ", by " + test.who;
    return words;
}

std::string value_words(const app::TestRow& test) {
    const auto& kind = traits(test.property);
    return fmt::format("{} {} {}", kind.name, number_words(test.value, kind.decimals), kind.unit);
}

void result(const app::TestRow& test) {
    const auto& kind = traits(test.property);
    std::string note = test.basis;
    if (!test.method.empty())
        note += (note.empty() ? "" : " · ") + test.method;
    ui::fact({.label = kind.name,
              .value = number_words(test.value, kind.decimals),
              .unit = kind.unit,
              .note = note});
    std::string standing = test.standing;
    if (standing.empty() && (test.counts || test.asks_check))
        standing = test.asks_check ? "counts, but check it" : "counts";
    const Role counted = test.counts ? Role::good : Role::quiet;
    if (!standing.empty())
        ui::status(test.asks_check ? Role::mind : counted, standing);
}

/// The results of one sample belong together: they are withdrawn together.
bool of_one_sample(const app::TestRow& a, const app::TestRow& b) {
    return a.retest == b.retest && (a.retest || a.taken_on == b.taken_on);
}

void sample(std::span<const app::TestRow> tests, const app::TestRow& first,
            std::optional<TakeBack>& question) {
    ui::paragraph(sample_words(first), {.weight = ui::Weight::bold});
    std::string all;
    for (const auto& test : tests) {
        if (!of_one_sample(test, first))
            continue;
        result(test);
        all += (all.empty() ? ": " : ", ") + value_words(test);
    }
    if (first.retest && ui::button("Withdraw", {.kind = ui::ButtonKind::quiet})) {
        question.emplace();
        question->what = *first.retest;
        question->words = sample_words(first) + all;
    }
}

} // namespace

void draw_results(std::span<const app::TestRow> tests, std::optional<TakeBack>& question) {
    if (tests.empty())
        ui::hint("None yet. A retest now and one some weeks later say whether this lot matures as "
                 "estimated.");
    for (std::size_t i = 0; i < tests.size(); ++i) {
        const auto is_same = [&](const auto& before) { return of_one_sample(before, tests[i]); };
        if (std::any_of(tests.begin(), tests.begin() + static_cast<std::ptrdiff_t>(i), is_same))
            continue;
        ui::scope(static_cast<std::int64_t>(i), [&] { sample(tests, tests[i], question); });
        ui::rule();
    }
}

} // namespace mellowbin::views
