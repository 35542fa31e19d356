#include "ui/views/readiness/band.h"

#include "app/models/outlook.h"
#include "app/models/readiness.h"
#include "core/normal.h"
#include "ui/views/common/day_words.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {

using namespace ui;

std::optional<Fade> fade_of(const app::DaySpread& spread) {
    if (!spread.likely)
        return {};
    constexpr double beyond_the_axis = 3650;
    const double middle = day_number(*spread.likely);
    const double before = spread.early ? middle - day_number(*spread.early) : 0;
    const double after = spread.late ? day_number(*spread.late) - middle : beyond_the_axis;
    return Fade{middle - before * to_5_and_95 / to_10_and_90, middle - before * to_25_and_75 / to_10_and_90,
                middle, middle + after * to_25_and_75 / to_10_and_90,
                middle + after * to_5_and_95 / to_10_and_90};
}

Role state_role(const app::ReadinessRow& row) {
    return row.state == LotState::released && !row.standing.is_on_hold ? role_of(row.now)
                                                                       : role_of(row.state, row.standing);
}

std::string state_words(const app::ReadinessRow& row) {
    const std::string now(app::in_words(row.now));
    return row.state == LotState::released && row.standing.words.empty()
               ? now
               : fmt::format("{}, {}", name_of(row.state, row.standing), now);
}

namespace {

/// What comes next, and when.
std::string next_day(const app::ReadinessRow& row, Day as_of) {
    using app::Readiness;
    switch (row.now) {
    case Readiness::young:
    case Readiness::usable:
        return row.ready_at_confidence ? ", ready " + short_day_near(*row.ready_at_confidence, as_of)
                                       : ", not ready in two years";
    case Readiness::use_first:
        return row.past_best_at_confidence ? ", by " + short_day_near(*row.past_best_at_confidence, as_of)
                                           : std::string();
    case Readiness::past_best:
        return row.past_best_at_confidence ? ", " + short_day_near(*row.past_best_at_confidence, as_of)
                                           : std::string();
    case Readiness::ready:
        break;
    }
    return {};
}

} // namespace

std::string state_and_day(const app::ReadinessRow& row, Day as_of) {
    return state_words(row) + next_day(row, as_of);
}

std::string evidence_words(const app::ReadinessRow& row) {
    const auto words =
        row.tests == 0 ? "no results" : counted(static_cast<std::size_t>(row.tests), "result", "results");
    return row.asks_check ? words + ", check" : words;
}

std::string measured_words(const app::ReadinessRow& row) {
    return row.measured > 0 ? percent(row.measured) + " measured" : "storage assumed";
}

void LotBand::fill(const app::ReadinessRow& row, const app::ReadinessModel& model, BandRow& band) {
    constexpr double far = 3650; // days; past any axis a person looks at
    spans.clear();
    ticks.clear();
    double from = day_number(row.delivered_on);
    const auto until = [&](const std::optional<Day>& day, Texture texture) {
        const double to = day ? day_number(*day) : day_number(model.today) + far;
        if (to <= from)
            return;
        spans.push_back({from, to, texture});
        from = to;
    };
    // Past its best stops all: what is promised after that is not drawn.
    const auto before_the_end = [&](const std::optional<Day>& day) {
        return row.past_best_at_confidence && (!day || *day > *row.past_best_at_confidence)
                   ? row.past_best_at_confidence
                   : day;
    };
    until(before_the_end(row.usable_at_confidence), Texture::young);
    until(before_the_end(row.ready_at_confidence), Texture::usable);
    until(row.past_best_at_confidence, Texture::ready);
    until({}, Texture::past_best);

    const auto [first, last] =
        std::equal_range(model.ticks.begin(), model.ticks.end(), app::RunTick{{}, row.id, {}, {}},
                         [](const app::RunTick& a, const app::RunTick& b) { return a.lot < b.lot; });
    for (auto tick = first; tick != last; ++tick)
        ticks.push_back({tick->run.number(), day_number(tick->day), tick->words});

    detail = fmt::format("{} · {} kg", row.flour, kilograms(row.stock_kg));
    amount = kilograms(row.stock_kg);
    state = state_and_day(row, model.as_of);
    words = fmt::format("{}: {}", state_words(row), row.words);
    if (!row.advice_words.empty())
        words +=
            fmt::format("\n{}: {}", as_sentence(std::string(app::in_words(row.advice))), row.advice_words);
    remark(row);
    band.label = row.code;
    band.aside = measured;
    band.amount = amount;
    band.state = state;
    band.state_role = state_role(row);
    band.detail = detail;
    const Role role = state_role(row);
    band.role = role == Role::stop || role == Role::mind ? role : Role::ink;
    band.spans = spans;
    band.ready_from = fade_of(row.ready);
    band.best_until = fade_of(row.past_best);
    band.ticks = ticks;
    band.remarks = remarks;
    band.words = words;
}

void LotBand::fill(const FlourGroup& group, BandRow& band) {
    detail = size_words(group);
    words = count_words(group);
    band.is_group = true;
    band.is_folded = group.is_folded;
    band.label = group.flour;
    band.detail = detail;
    band.words = words;
}

void LotBand::remark(const app::ReadinessRow& row) {
    advice = advice_words(row.advice);
    evidence = evidence_words(row);
    measured = measured_words(row);
    remarks = {{advice, role_of(row.advice)}, {evidence, row.asks_check ? Role::mind : Role::quiet}};
}

} // namespace mellowbin::views
