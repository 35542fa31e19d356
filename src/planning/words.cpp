#include "planning/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace mellowbin::planning {

std::string list_words(const std::vector<std::string>& words) {
    std::string all;
    for (std::size_t i = 0; i < words.size(); ++i)
        all += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
    return all;
}

std::string count_words(std::size_t count, const std::string& what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string names_of(const Problem& problem, const std::vector<int>& lots) {
    constexpr std::size_t most_named = 5;
    const bool all = lots.size() <= most_named;
    const std::size_t named = all ? lots.size() : most_named - 1;
    std::string words;
    for (std::size_t i = 0; i < named; ++i) {
        if (i > 0)
            words += all && i + 1 == named ? " and " : ", ";
        words += problem.lots[lots[i]].id;
    }
    if (!all)
        words += fmt::format(" and {} more", lots.size() - named);
    return words;
}

std::string day_words(const Background& background, double day) {
    return background.day_in_words ? background.day_in_words(day) : fmt::format("day {:g}", day);
}

namespace {

std::string lower_first(std::string words) {
    // An abbreviation ("RVA") stays as it is.
    const bool plain = words.size() > 1 && std::islower(static_cast<unsigned char>(words[1])) != 0;
    if (plain)
        words[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(words[0])));
    return words;
}

std::string number_words(const Property& property, double value) {
    const std::string number = fmt::format("{:.{}f}", value, property.decimals + 1);
    return property.unit.empty() ? number : number + " " + property.unit;
}

} // namespace

std::string value_words(const Problem& problem, int property, double value) {
    const Property& p = problem.properties[property];
    return lower_first(p.name) + " " + number_words(p, value);
}

std::string off_window_words(const Problem& problem, int property, double off) {
    const Property& p = problem.properties[property];
    return fmt::format("{} {} {} its specification", lower_first(p.name), number_words(p, std::abs(off)),
                       off < 0 ? "below" : "above");
}

std::string tonnes_words(double tonnes) { return fmt::format("{:.{}f} t", tonnes, tonnes < 0.95 ? 2 : 1); }

std::string rule_words(Ban ban) {
    switch (ban) {
    case Ban::none:
        return "May be used";
    case Ban::not_arrived:
        return "Not arrived in time";
    case Ban::not_released:
        return "Not released in time";
    case Ban::not_ready:
        return "Not mature enough in time";
    case Ban::past_use_by:
        return "Past use-by";
    case Ban::held:
        return "On hold";
    case Ban::rejected:
        return "Rejected";
    case Ban::used_up:
        return "Used up";
    case Ban::wrong_flour:
        return "Another kind of flour";
    case Ban::market_forbids_oxidant:
        return "Market forbids the mill's oxidant";
    case Ban::not_measured:
        return "A figure is not known";
    case Ban::other:
        break;
    }
    return "Ruled out";
}

std::string sentence(std::string words) {
    if (!words.empty())
        words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
    return words;
}

double past_best_t(const Problem& problem, int run, const Use& use) {
    double tonnes = 0;
    for (const auto& [l, t] : use)
        tonnes += problem.runs[run].day > problem.lots[l].best_before_day ? t : 0;
    return tonnes;
}

namespace {

/// Amounts too small for a word: half a kilogram, a two-hundredth of a window's step, a twentieth of a point,
/// half a mg/kg, half a unit of currency.
constexpr double slight_t = 0.0005;
constexpr double slight_of_scale = 0.005;
constexpr double slight_points = 0.05;
constexpr double slight_ppm = 0.5;
constexpr double slight_money = 0.5;

/// The tiers of one run, the other blend held against the one it has.
class TierWords {
public:
    TierWords(const Problem& problem, int run, const RunResult& now, const RunResult& then,
              const DoseNamer& dose)
        : p_(problem), run_(run), now_(now), then_(then), dose_(dose) {}

    std::vector<TierChange> all() {
        shortage();
        windows();
        maturity();
        oxidant();
        lot_changes();
        const Parts& is = now_.parts;
        const Parts& would = then_.parts;
        by_money(Tier::past_best, would.past_best - is.past_best, "more flour past its best",
                 "less flour past its best");
        by_money(Tier::age, would.age - is.age, "flour that would keep longer", "flour that expires sooner");
        by_money(Tier::cost, would.cost - is.cost, "dearer flour", "cheaper flour");
        std::stable_sort(found_.begin(), found_.end(), [](const TierChange& a, const TierChange& b) {
            return std::abs(a.cost) > std::abs(b.cost);
        });
        return std::move(found_);
    }

private:
    void add(Tier tier, double cost, bool is_worse, std::string words) {
        found_.push_back({tier, cost, is_worse, std::move(words)});
    }

    void shortage() {
        const double more = then_.short_t - now_.short_t;
        if (std::abs(more) > slight_t)
            add(Tier::shortage, then_.parts.shortage - now_.parts.shortage, more > 0,
                fmt::format("{} {} short", tonnes_words(std::abs(more)),
                            more > 0 ? "more would be" : "less would be"));
    }

    /// The property that moves most in steps of its window stands for all.
    void windows() {
        int worst = -1;
        double most = slight_of_scale;
        for (std::size_t k = 0; k < p_.properties.size(); ++k) {
            const double moved =
                std::abs(off(then_, k) - off(now_, k)) / p_.product_of(run_).windows[k].scale;
            if (moved <= most)
                continue;
            most = moved;
            worst = static_cast<int>(k);
        }
        if (worst < 0)
            return;
        const auto k = static_cast<std::size_t>(worst);
        const bool is_worse = off(then_, k) > off(now_, k);
        const bool is_inside = off(then_, k) <= slight_of_scale * p_.product_of(run_).windows[k].scale;
        std::string words = is_inside ? lower_first(p_.properties[k].name) + " inside its specification"
                                      : off_window_words(p_, worst, then_.off_window[k]);
        if (!is_inside && off(now_, k) > slight_of_scale * p_.product_of(run_).windows[k].scale)
            words += fmt::format(" instead of {}", number_words(p_.properties[k], off(now_, k)));
        add(Tier::windows, then_.parts.windows - now_.parts.windows, is_worse, std::move(words));
    }

    [[nodiscard]] static double off(const RunResult& result, std::size_t k) {
        return std::abs(result.off_window[k]);
    }

    void maturity() {
        const double more = then_.maturity_gap_points - now_.maturity_gap_points;
        if (std::abs(more) > slight_points)
            add(Tier::maturity, then_.parts.maturity - now_.parts.maturity, more > 0,
                fmt::format("{:.1f} % {} maturity missing", std::abs(more), more > 0 ? "more" : "less"));
    }

    void oxidant() {
        const double more = then_.added_oxidant_ppm - now_.added_oxidant_ppm;
        if (std::abs(more) < slight_ppm)
            return;
        const Dose dose = dose_ ? dose_(run_, std::abs(more)) : Dose{std::abs(more), "oxidant"};
        add(Tier::oxidant, then_.parts.oxidant - now_.parts.oxidant, more > 0,
            fmt::format("{:.0f} mg/kg {} {} by maturity", dose.mg_per_kg, more > 0 ? "more" : "less",
                        dose.name));
    }

    void lot_changes() {
        const int more = then_.lot_changes - now_.lot_changes;
        if (more != 0)
            add(Tier::lot_changes, then_.parts.lot_changes - now_.parts.lot_changes, more > 0,
                fmt::format("{} {} lot change{}", std::abs(more), more > 0 ? "more" : "fewer",
                            std::abs(more) == 1 ? "" : "s"));
    }

    void by_money(Tier tier, double more, const char* worse, const char* better) {
        if (std::abs(more) > slight_money)
            add(tier, more, more > 0, more > 0 ? worse : better);
    }

    const Problem& p_;
    int run_;
    const RunResult& now_;
    const RunResult& then_;
    const DoseNamer& dose_;
    std::vector<TierChange> found_;
};

} // namespace

std::vector<TierChange> tier_changes(const Problem& problem, int run, const RunResult& now,
                                     const RunResult& then, const DoseNamer& dose) {
    return TierWords(problem, run, now, then, dose).all();
}

} // namespace mellowbin::planning
