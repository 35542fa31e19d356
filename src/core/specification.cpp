#include "core/specification.h"

#include "core/decimal.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <cmath>
#include <string>

namespace mellowbin {
namespace {

Verdict verdict_of(const Window& window, double value) {
    if (window.low && value < *window.low)
        return Verdict::below;
    if (window.high && value > *window.high)
        return Verdict::above;
    return Verdict::inside;
}

std::string with_unit(const std::string& text, std::string_view unit) {
    return unit.empty() ? text : fmt::format("{} {}", text, unit);
}

/// As many decimals as are reported, and more where rounding would say the opposite of the verdict: 13.04 is
/// above 13.0.
std::string shown_with_verdict(const Window& window, double value) {
    const Verdict verdict = verdict_of(window, value);
    constexpr int most_decimals = 6;
    for (int decimals = traits(window.property).decimals; decimals < most_decimals; ++decimals) {
        const double scale = std::pow(10.0, decimals);
        if (verdict_of(window, std::round(value * scale) / scale) == verdict)
            return fixed(value, decimals);
    }
    return fixed(value, most_decimals);
}

Judgement judge_one(const Certificate& certificate, const Window& window) {
    const auto& kind = traits(window.property);
    const auto* reported = certificate.find(window.property);
    if (!reported)
        return {window, Verdict::missing, {}, fmt::format("not measured; {}", window.in_words())};

    const auto value = value_at_14(certificate, window.property);
    if (!value)
        return {window, Verdict::not_comparable, {}, value.refusals().front().what};
    const bool asks_for_a_method = !window.method.empty() || depends_on_method(window.property);
    if (asks_for_a_method && (window.method.empty() || !same_words(reported->method, window.method))) {
        const auto named = [](const std::string& method) {
            return method.empty() ? std::string("a method that is not stated") : method;
        };
        return {window, Verdict::not_comparable, **value,
                fmt::format("measured by {}, the specification is for {}", named(reported->method),
                            named(window.method))};
    }
    const Verdict verdict = verdict_of(window, **value);
    const char* how = verdict == Verdict::inside ? "inside" : verdict == Verdict::below ? "below" : "above";
    return {window, verdict, **value,
            with_unit(shown_with_verdict(window, **value), kind.unit) + ", " + how + " " + window.in_words()};
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
    // A limit is never rounded: it would say something else than it does.
    const auto shown = [&](double v) {
        const std::string rounded = fixed(v, kind.decimals);
        const std::string whole = fmt::format("{}", v);
        return whole.size() > rounded.size() ? whole : rounded;
    };
    if (low && high)
        return with_unit(fmt::format("{} to {}", shown(*low), shown(*high)), kind.unit);
    if (low)
        return with_unit("at least " + shown(*low), kind.unit);
    if (high)
        return with_unit("at most " + shown(*high), kind.unit);
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
        return Refusal{name, "the specification has neither a lowest nor a highest value",
                       "Enter at least one of the two"};
    window.method = trimmed(window.method);
    if (depends_on_method(window.property) && window.method.empty())
        return Refusal{name, "the specification names no method, and each method gives other numbers",
                       "Enter the method, such as AACC 76-31"};
    if (window.low && window.high && *window.low > *window.high) {
        return Refusal{name,
                       fmt::format("the lowest value {} is above the highest {}", *window.low, *window.high),
                       "Exchange the two, or correct one"};
    }
    return window;
}

} // namespace mellowbin
