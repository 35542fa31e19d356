#include "ui/views/common/words.h"

#include "app/models/outlook.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {

using ui::Role;

std::string number_words(std::optional<double> value, int decimals) {
    return value ? fixed(*value, decimals) : "–";
}

std::string day_words(std::optional<Day> day) { return day ? iso(*day) : "–"; }

std::string ordinal(std::size_t place) {
    const auto last_two = place % 100;
    const bool is_teen = last_two >= 11 && last_two <= 13;
    const char* ending = "th";
    if (!is_teen && place % 10 == 1)
        ending = "st";
    else if (!is_teen && place % 10 == 2)
        ending = "nd";
    else if (!is_teen && place % 10 == 3)
        ending = "rd";
    return fmt::format("{}{}", place, ending);
}

ui::Role role_of(LotState state) {
    switch (state) {
    case LotState::awaiting_judgement:
        return Role::mind;
    case LotState::held:
    case LotState::rejected:
        return Role::stop;
    case LotState::released:
        return Role::good;
    case LotState::used_up:
        return Role::quiet;
    }
    return Role::ink;
}

ui::Role role_of(LotState state, const app::LotStanding& standing) {
    if (standing.is_on_hold)
        return Role::stop;
    return state == LotState::released && !standing.words.empty() ? Role::mind : role_of(state);
}

ui::Role role_of(app::Readiness readiness) {
    switch (readiness) {
    case app::Readiness::young:
        return Role::quiet;
    case app::Readiness::usable:
        return Role::ink;
    case app::Readiness::ready:
        return Role::good;
    case app::Readiness::use_first:
        return Role::mind;
    case app::Readiness::past_best:
        return Role::stop;
    }
    return Role::ink;
}

ui::Role role_of(app::Advice advice) {
    switch (advice) {
    case app::Advice::wait:
        return Role::quiet;
    case app::Advice::use:
        return Role::good;
    case app::Advice::use_first:
        return Role::mind;
    case app::Advice::hold:
        return Role::stop;
    }
    return Role::ink;
}

std::string advice_words(app::Advice advice) {
    const auto words = app::in_words(advice);
    return advice == app::Advice::wait ? fmt::format("○ {}", words) : std::string(words);
}

ui::Role role_of(Verdict verdict) {
    switch (verdict) {
    case Verdict::inside:
        return Role::good;
    case Verdict::below:
    case Verdict::above:
        return Role::stop;
    case Verdict::missing:
    case Verdict::not_comparable:
        return Role::mind;
    }
    return Role::ink;
}

std::string_view word_for(Verdict verdict) {
    switch (verdict) {
    case Verdict::inside:
        return "inside";
    case Verdict::below:
        return "below";
    case Verdict::above:
        return "above";
    case Verdict::missing:
        return "not reported";
    case Verdict::not_comparable:
        return "cannot be compared";
    }
    return "";
}

Refusals all_but(const Refusals& refusals, std::span<const std::string_view> fields) {
    Refusals others;
    std::copy_if(refusals.begin(), refusals.end(), std::back_inserter(others), [&](const Refusal& r) {
        return std::find(fields.begin(), fields.end(), r.field) == fields.end();
    });
    return others;
}

Refusals all_but(const Refusals& refusals, std::initializer_list<std::string_view> fields) {
    return all_but(refusals, std::span(fields.begin(), fields.size()));
}

} // namespace mellowbin::views
