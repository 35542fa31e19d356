#include "dough/water_belief.h"

#include "core/literature/constants.h"
#include "core/promised.h"
#include "dough/water_groups.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace mellowbin::dough {
namespace {

namespace lit = literature;

constexpr double days_of_year = 365.25; // mean of the calendar

double squared(double x) { return x * x; }

struct ProductOffset {
    Eigen::Index unknown = 0;
    int words = 0;       ///< batches of it that somebody said a word of
    std::set<LotId> met; ///< lots that it had, and that are not let go
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
    // two seasons, each with a spread of its own, lie apart by the root of two of it
    spreads.drift = std::sqrt(2.0) * lit::dough_water_season_sd.value;
    spreads.lots = {lit::dough_water_lots_alike.value, lit::dough_water_lots_apart.value,
                    lit::dough_water_lots_far_apart.value};
    spreads.crop_step = lit::dough_water_crop_step.value;
    spreads.crop_share = lit::dough_water_crop_share.value;
    spreads.bands = {{{lit::dough_water_band_1.value, 1},
                      {lit::dough_water_band_2.value, 1},
                      {lit::dough_water_band_3.value, 1},
                      {lit::dough_water_band_4.value, lit::dough_water_band_4_share.value}}};
    spreads.noise = {lit::dough_water_sure_operator.value, lit::dough_water_unsure_operator.value};
    spreads.trust = {lit::dough_water_lapse.value, lit::dough_water_silence.value};
    spreads.forgetting = lit::dough_water_forgetting.value;
    spreads.odd_word = lit::dough_water_odd_word.value;
    return spreads;
}

struct WaterBelief::Filter {
    explicit Filter(const WaterSpreads& before) : spreads(before), unknowns(before) {}

    WaterSpreads spreads;
    WaterGroups unknowns;
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
    [[nodiscard]] bool is_new(ProductId product, std::span<const LotShare> lots) const;
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
    return products[product] = {unknowns.add(expects(product).offset, prior_variance(product)), 0, {}};
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
    return lots[lot] = unknowns.add_lot();
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

/// A lot of the dough is one that the product never had.
bool WaterBelief::Filter::is_new(ProductId product, std::span<const LotShare> dough) const {
    const auto known = products.find(product);
    return std::any_of(dough.begin(), dough.end(), [&](const LotShare& part) {
        return !of_gone(part.lot) && (known == products.end() || !known->second.met.contains(part.lot));
    });
}

WaterBelief::WaterBelief(const WaterSpreads& spreads) : filter_(std::make_unique<Filter>(spreads)) {}
WaterBelief::WaterBelief(const WaterState& state, const WaterSpreads& spreads) : WaterBelief(spreads) {
    auto& filter = *filter_;
    filter.unknowns = WaterGroups(state, spreads);
    for (const auto& one : state.expected)
        filter.expected[one.product] = {one.offset, one.is_assumed};
    for (const auto& one : state.products)
        filter.products[one.product] = {one.unknown, one.words, {one.met.begin(), one.met.end()}};
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
    filter.unknowns.put_into(state);
    for (const auto& [product, one] : filter.expected)
        state.expected.push_back({product, one.offset, one.is_assumed});
    for (const auto& [product, one] : filter.products)
        state.products.push_back({product, one.unknown, one.words, {one.met.begin(), one.met.end()}});
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
    const auto was = known->second;
    filter.products.erase(known);
    filter.drop(was.unknown);
    filter.offset_of(product).met = was.met;
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
    filter.go_to(said.day);
    auto& product = filter.offset_of(said.product);
    auto& line = filter.offset_of(said.product, said.line);
    if (filter.is_new(said.product, said.lots))
        filter.unknowns.begin_lot(product.unknown, said.line);
    Terms optimum{{product.unknown}, {line.unknown}};
    for (const auto& [lot, share] : said.lots) {
        optimum.push_back({filter.deviation_of(lot), share});
        product.met.insert(lot);
    }
    const double likely =
        filter.unknowns.hear(optimum, (said.given - said.farinograph).value(), said.line, said.feel);
    if (said.feel) {
        ++product.words;
        ++line.words;
    }
    return likely >= filter.spreads.odd_word;
}

LotDeviation WaterBelief::let_go(LotId lot) {
    auto& filter = *filter_;
    const auto found = filter.lots.find(lot);
    promised(found != filter.lots.end());
    const auto unknown = found->second;
    const auto believed = filter.unknowns.of({{unknown}}, {});
    const LotDeviation deviation{believed.mean, believed.variance};
    filter.gone[lot] = deviation;
    filter.lots.erase(found);
    for (auto& [product, one] : filter.products)
        one.met.erase(lot);
    filter.drop(unknown);
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
    WaterGroups::Beside beside_offset, beside_deviation;
    beside_offset.has_offset = true;
    beside_offset.is_new = beside_deviation.is_new = filter.is_new(product, lots);
    if (const auto known = filter.products.find(product); known != filter.products.end()) {
        offset.push_back({known->second.unknown});
        beside_offset.variance += filter.drifted(day);
        learned.is_assumed = learned.is_assumed && known->second.words == 0;
    } else {
        beside_offset.mean = filter.expects(product).offset;
        beside_offset.variance += filter.prior_variance(product);
    }
    if (const auto known = filter.lines.find({product, line}); known != filter.lines.end()) {
        offset.push_back({known->second.unknown});
        learned.batches = known->second.words;
    } else {
        beside_offset.variance += squared(filter.spreads.line);
    }
    for (const auto& [lot, share] : lots) {
        if (const auto known = filter.lots.find(lot); known != filter.lots.end()) {
            deviation.push_back({known->second, share});
        } else if (const auto* gone = filter.of_gone(lot)) {
            beside_deviation.mean += share * gone->mean;
            beside_deviation.variance += squared(share) * gone->variance;
        } else {
            beside_deviation.unseen_lots += squared(share);
        }
    }
    const auto of_offset = filter.unknowns.of(offset, beside_offset);
    const auto of_deviation = filter.unknowns.of(deviation, beside_deviation);
    learned.offset = AbsorptionPoints{of_offset.mean};
    learned.offset_sd = std::sqrt(of_offset.variance);
    learned.deviation = AbsorptionPoints{of_deviation.mean};
    learned.deviation_sd = std::sqrt(of_deviation.variance);
    offset.insert(offset.end(), deviation.begin(), deviation.end());
    auto beside = beside_deviation;
    beside.has_offset = true;
    beside.mean += beside_offset.mean;
    beside.variance += beside_offset.variance;
    learned.sd = std::sqrt(filter.unknowns.of(offset, beside).variance);
    return learned;
}

std::string water_range_words() {
    return "The range is to hold the right water in 80 of 100 doughs. It holds it in fewer: after a new "
           "crop, in "
           "the first doughs of some six lots; where a certificate is wrong, of which three words mend the "
           "half; "
           "where an operator calls doughs right that lie to one side, which no word can tell";
}

} // namespace mellowbin::dough
