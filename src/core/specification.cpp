#include "core/specification.h"

#include "core/decimal.h"

#include <fmt/format.h>

#include <cmath>

namespace mellowbin {
namespace {

Verdict verdict_of(const Window& window, double value) {
    if (window.low && value < *window.low)
        return Verdict::below;
    if (window.high && value > *window.high)
        return Verdict::above;
    return Verdict::inside;
}

Judgement judge_one(const Certificate& certificate, const Window& window) {
    const auto& kind = traits(window.property);
    const auto* reported = certificate.find(window.property);
    if (!reported)
        return {window, Verdict::missing, {}, fmt::format("not measured; {}", window.in_words())};

    const auto value = value_at_14(certificate, window.property);
    if (!value)
        return {window, Verdict::not_comparable, {}, value.refusals().front().what};
    const bool other_method = !window.method.empty() && reported->method != window.method;
    if (other_method) {
        return {window, Verdict::not_comparable, **value,
                fmt::format("measured by {}, the window is for {}",
                            reported->method.empty() ? "a method that is not stated" : reported->method,
                            window.method)};
    }
    const Verdict verdict = verdict_of(window, **value);
    const char* how = verdict == Verdict::inside ? "inside" : verdict == Verdict::below ? "below" : "above";
    return {window, verdict, **value,
            fmt::format("{} {}, {} {}", fixed(**value, kind.decimals), kind.unit, how, window.in_words())};
}

} // namespace

double Window::half_width() const {
    if (low && high && *high > *low)
        return (*high - *low) / 2;
    const double limit = std::abs(low.value_or(high.value_or(1)));
    return limit > 0 ? limit / 10 : 1;
}

std::string Window::in_words() const {
    const auto& kind = traits(property);
    const auto shown = [&](double v) { return fixed(v, kind.decimals); };
    if (low && high)
        return fmt::format("{} to {} {}", shown(*low), shown(*high), kind.unit);
    if (low)
        return fmt::format("at least {} {}", shown(*low), kind.unit);
    if (high)
        return fmt::format("at most {} {}", shown(*high), kind.unit);
    return "any";
}

std::vector<Judgement> judge(const Certificate& certificate, const Specification& specification) {
    std::vector<Judgement> judgements;
    judgements.reserve(specification.size());
    for (const auto& window : specification)
        judgements.push_back(judge_one(certificate, window));
    return judgements;
}

Result<Window> accept_window(Window window) {
    const std::string name(traits(window.property).name);
    if (!window.low && !window.high)
        return Refusal{name, "the window has neither a lowest nor a highest value",
                       "Enter at least one of the two"};
    if (window.low && window.high && *window.low > *window.high) {
        return Refusal{
            name, fmt::format("the lowest value {:g} is above the highest {:g}", *window.low, *window.high),
            "Exchange the two, or correct one"};
    }
    return window;
}

} // namespace mellowbin
