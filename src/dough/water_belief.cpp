#include "dough/water_belief.h"

#include "core/literature/constants.h"
#include "core/promised.h"
#include "dough/normal_filter.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace mellowbin::dough {
namespace {

namespace lit = literature;

constexpr double far_away = 4;          // standard deviations
constexpr int believed_after = 3;       // batches on end that lie far away
constexpr double days_of_year = 365.25; // mean of the calendar

double squared(double x) { return x * x; }

struct ProductOffset {
    Eigen::Index unknown = 0;
    int words = 0;    ///< batches of it that somebody said a word of
    int far_away = 0; ///< on end
};

struct LineOffset {
    Eigen::Index unknown = 0;
    int words = 0;
};

struct Expected {
    double offset = 0;
    bool is_assumed = true;
};

} // namespace

WaterSpreads published_water_spreads() {
    WaterSpreads spreads;
    spreads.assumed_offset = lit::dough_water_assumed_offset_sd.value;
    spreads.known_offset = lit::dough_water_known_offset_sd.value;
    spreads.line = lit::dough_water_line_sd.value;
    spreads.lot = lit::dough_water_lot_sd.value;
    // two seasons, each with a spread of its own, lie apart by the root of two of it
    spreads.drift = std::sqrt(2.0) * lit::dough_water_season_sd.value;
    spreads.batch = lit::dough_water_batch_sd.value;
    spreads.word = lit::dough_water_word.value;
    spreads.word_doubt = lit::dough_water_word_doubt.value;
    spreads.silence = lit::dough_water_silence_sd.value;
    return spreads;
}

Said in_points(const WaterSaid& said, const WaterSpreads& spreads) {
    const auto taken = said.given - said.farinograph;
    const double batch = squared(spreads.batch);
    if (!said.feel)
        return {taken, batch + squared(spreads.silence)};
    const AbsorptionPoints word{spreads.word};
    switch (*said.feel) {
    case Feel::stiff:
        return {taken + word, batch + squared(spreads.word_doubt)};
    case Feel::slack:
        return {taken - word, batch + squared(spreads.word_doubt)};
    case Feel::right:
        break;
    }
    return {taken, batch};
}

struct WaterBelief::Filter {
    WaterSpreads spreads;
    NormalFilter unknowns;
    std::map<ProductId, Expected> expected;
    std::map<ProductId, ProductOffset> products;
    std::map<std::pair<ProductId, LineId>, LineOffset> lines;
    std::map<LotId, Eigen::Index> lots;
    std::map<LotId, LotDeviation> gone; ///< let go, and not forgotten
    std::optional<Day> today;           ///< of the last batch

    [[nodiscard]] Expected expects(ProductId product) const;
    [[nodiscard]] double prior_variance(ProductId product) const;
    [[nodiscard]] double drifted(Day day) const;
    void go_to(Day day);
    ProductOffset& offset_of(ProductId product);
    LineOffset& offset_of(ProductId product, LineId line);
    Eigen::Index deviation_of(LotId lot);
    void drop(Eigen::Index unknown);
    [[nodiscard]] const LotDeviation* of_gone(LotId lot) const;
};

Expected WaterBelief::Filter::expects(ProductId product) const {
    const auto found = expected.find(product);
    return found == expected.end() ? Expected{} : found->second;
}

double WaterBelief::Filter::prior_variance(ProductId product) const {
    return squared(expects(product).is_assumed ? spreads.assumed_offset : spreads.known_offset);
}

/// Variance that an offset has gained from the last batch until the day.
double WaterBelief::Filter::drifted(Day day) const {
    if (!today || day <= *today)
        return 0;
    return squared(spreads.drift) * static_cast<double>((day - *today).count()) / days_of_year;
}

void WaterBelief::Filter::go_to(Day day) {
    const double gained = drifted(day);
    for (const auto& [product, offset] : products)
        unknowns.widen(offset.unknown, gained);
    today = today ? std::max(*today, day) : day;
}

ProductOffset& WaterBelief::Filter::offset_of(ProductId product) {
    const auto found = products.find(product);
    if (found != products.end())
        return found->second;
    return products[product] = {unknowns.add(expects(product).offset, prior_variance(product)), 0, 0};
}

LineOffset& WaterBelief::Filter::offset_of(ProductId product, LineId line) {
    const auto found = lines.find({product, line});
    if (found != lines.end())
        return found->second;
    return lines[{product, line}] = {unknowns.add(0, squared(spreads.line)), 0};
}

Eigen::Index WaterBelief::Filter::deviation_of(LotId lot) {
    const auto found = lots.find(lot);
    if (found != lots.end())
        return found->second;
    return lots[lot] = unknowns.add(0, squared(spreads.lot));
}

void WaterBelief::Filter::drop(Eigen::Index unknown) {
    const auto moved = unknowns.drop(unknown);
    const auto follow = [&](Eigen::Index& place) { place = place == moved ? unknown : place; };
    for (auto& [product, offset] : products)
        follow(offset.unknown);
    for (auto& [line, offset] : lines)
        follow(offset.unknown);
    for (auto& [lot, place] : lots)
        follow(place);
}

/// Null: the lot was not let go, or forgotten since.
const LotDeviation* WaterBelief::Filter::of_gone(LotId lot) const {
    const auto at = gone.find(lot);
    return at == gone.end() ? nullptr : &at->second;
}

WaterBelief::WaterBelief(const WaterSpreads& spreads) : filter_(std::make_unique<Filter>()) {
    filter_->spreads = spreads;
}
WaterBelief::WaterBelief(const WaterState& state, const WaterSpreads& spreads) : WaterBelief(spreads) {
    auto& filter = *filter_;
    filter.unknowns = NormalFilter(state.unknowns);
    for (const auto& one : state.expected)
        filter.expected[one.product] = {one.offset, one.is_assumed};
    for (const auto& one : state.products)
        filter.products[one.product] = {one.unknown, one.words, one.far_away};
    for (const auto& one : state.lines)
        filter.lines[{one.product, one.line}] = {one.unknown, one.words};
    filter.lots.insert(state.lots.begin(), state.lots.end());
    filter.today = state.today;
}
WaterBelief::~WaterBelief() = default;
WaterBelief::WaterBelief(const WaterBelief& other) : filter_(std::make_unique<Filter>(*other.filter_)) {}
WaterBelief& WaterBelief::operator=(const WaterBelief& other) {
    if (this != &other)
        filter_ = std::make_unique<Filter>(*other.filter_);
    return *this;
}
WaterBelief::WaterBelief(WaterBelief&&) noexcept = default;
WaterBelief& WaterBelief::operator=(WaterBelief&&) noexcept = default;

WaterState WaterBelief::state() const {
    const auto& filter = *filter_;
    WaterState state;
    state.unknowns = filter.unknowns.state();
    for (const auto& [product, one] : filter.expected)
        state.expected.push_back({product, one.offset, one.is_assumed});
    for (const auto& [product, one] : filter.products)
        state.products.push_back({product, one.unknown, one.words, one.far_away});
    for (const auto& [on_line, one] : filter.lines)
        state.lines.push_back({on_line.first, on_line.second, one.unknown, one.words});
    state.lots.insert(filter.lots.begin(), filter.lots.end());
    state.today = filter.today;
    return state;
}

void WaterBelief::expect(ProductId product, AbsorptionPoints offset, bool is_assumed) {
    auto& filter = *filter_;
    filter.expected[product] = {offset.value(), is_assumed};
    const auto known = filter.products.find(product);
    if (known == filter.products.end())
        return;
    const auto unknown = known->second.unknown;
    filter.products.erase(known);
    filter.drop(unknown);
    filter.offset_of(product);
    for (auto& [on_line, one] : filter.lines)
        if (on_line.first == product)
            one.words = 0;
}

bool WaterBelief::expects(ProductId product, AbsorptionPoints offset, bool is_assumed) const {
    const auto expected = filter_->expects(product);
    return expected.offset == offset.value() && expected.is_assumed == is_assumed;
}

bool WaterBelief::observe(const WaterSaid& said) {
    auto& filter = *filter_;
    for (const auto& [lot, share] : said.lots)
        promised(!filter.of_gone(lot)); // what it has in common with the others is not known any more
    const auto points = in_points(said, filter.spreads);
    filter.go_to(said.day);
    auto& product = filter.offset_of(said.product);
    auto& line = filter.offset_of(said.product, said.line);
    Terms sum{{product.unknown}, {line.unknown}};
    for (const auto& [lot, share] : said.lots)
        sum.push_back({filter.deviation_of(lot), share});
    const double off = points.offset.value() - filter.unknowns.mean(sum);
    if (squared(off) > squared(far_away) * (filter.unknowns.variance(sum) + points.variance)) {
        if (++product.far_away < believed_after)
            return false;
        filter.unknowns.widen(product.unknown, squared(filter.spreads.assumed_offset) + squared(off));
    }
    product.far_away = 0;
    filter.unknowns.observe(sum, points.offset.value(), points.variance);
    if (said.feel) {
        ++product.words;
        ++line.words;
    }
    return true;
}

LotDeviation WaterBelief::let_go(LotId lot) {
    auto& filter = *filter_;
    const auto found = filter.lots.find(lot);
    promised(found != filter.lots.end());
    const Terms itself{{found->second}};
    const LotDeviation deviation{filter.unknowns.mean(itself), filter.unknowns.variance(itself)};
    filter.gone[lot] = deviation;
    filter.lots.erase(found);
    filter.drop(itself.front().unknown);
    return deviation;
}

void WaterBelief::recall(LotId lot, const LotDeviation& deviation) {
    promised(!knows(lot));
    filter_->gone[lot] = deviation;
}

void WaterBelief::forget(LotId lot) { filter_->gone.erase(lot); }

bool WaterBelief::was_let_go(LotId lot) const { return filter_->of_gone(lot) != nullptr; }

bool WaterBelief::knows(LotId lot) const { return filter_->lots.contains(lot); }

bool WaterBelief::knows(ProductId product) const { return filter_->products.contains(product); }

std::vector<LotId> WaterBelief::lots() const {
    std::vector<LotId> all;
    for (const auto& [lot, unknown] : filter_->lots)
        all.push_back(lot);
    return all;
}

std::size_t WaterBelief::unknowns() const { return static_cast<std::size_t>(filter_->unknowns.count()); }

WaterLearned WaterBelief::predict(ProductId product, LineId line, std::span<const LotShare> lots,
                                  Day day) const {
    const auto& filter = *filter_;
    WaterLearned learned;
    learned.is_assumed = filter.expects(product).is_assumed;
    Terms offset, deviation;
    double offset_more = 0, deviation_more = 0; // variance of what is not among the unknowns
    double mean = 0, deviation_mean = 0;        // and its mean
    if (const auto known = filter.products.find(product); known != filter.products.end()) {
        offset.push_back({known->second.unknown});
        offset_more += filter.drifted(day);
        learned.is_assumed = learned.is_assumed && known->second.words == 0;
    } else {
        mean = filter.expects(product).offset;
        offset_more += filter.prior_variance(product);
    }
    if (const auto known = filter.lines.find({product, line}); known != filter.lines.end()) {
        offset.push_back({known->second.unknown});
        learned.batches = known->second.words;
    } else {
        offset_more += squared(filter.spreads.line);
    }
    for (const auto& [lot, share] : lots) {
        if (const auto known = filter.lots.find(lot); known != filter.lots.end()) {
            deviation.push_back({known->second, share});
            continue;
        }
        const auto* gone = filter.of_gone(lot);
        deviation_mean += gone ? share * gone->mean : 0;
        deviation_more += squared(share) * (gone ? gone->variance : squared(filter.spreads.lot));
    }
    learned.offset = AbsorptionPoints{mean + filter.unknowns.mean(offset)};
    learned.offset_sd = std::sqrt(filter.unknowns.variance(offset) + offset_more);
    learned.deviation = AbsorptionPoints{deviation_mean + filter.unknowns.mean(deviation)};
    learned.deviation_sd = std::sqrt(filter.unknowns.variance(deviation) + deviation_more);
    offset.insert(offset.end(), deviation.begin(), deviation.end());
    learned.sd = std::sqrt(filter.unknowns.variance(offset) + offset_more + deviation_more);
    return learned;
}

} // namespace mellowbin::dough
