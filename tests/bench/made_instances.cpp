#include "made_instances.h"

#include "exchange/instance.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <stdexcept>
#include <vector>

namespace mellowbin::planning {

namespace {

using nlohmann::json;

/// Flours that can stand in for each other.
enum Kind { bread, pastry, soft, whole, kinds };

struct Made {
    const char* name;
    Kind kind;
    double protein; ///< middle of its window, 1.3 wide
    double ash;     ///< upper limit
    int maturity;
    bool may_dose;
};

constexpr std::array<Made, 12> products{{{"pan bread", bread, 12.45, 0.66, 66, true},
                                         {"baguette", bread, 11.65, 0.66, 58, false},
                                         {"burger bun", bread, 13.25, 0.66, 72, true},
                                         {"toast", bread, 12.05, 0.66, 62, true},
                                         {"ciabatta", bread, 12.77, 0.66, 64, false},
                                         {"biscuit", soft, 9.85, 0.56, 30, false},
                                         {"croissant", pastry, 10.93, 0.62, 55, true},
                                         {"wholemeal tin", whole, 12.85, 1.52, 50, true},
                                         {"mixed loaf", whole, 12.25, 1.12, 54, false},
                                         {"roll", bread, 11.65, 0.66, 60, true},
                                         {"cake", soft, 9.85, 0.56, 28, false},
                                         {"brioche", bread, 12.61, 0.66, 68, true}}};

/// What a flour of this protein and ash takes, % on flour.
double absorption(double protein, double ash) { return 58.5 + 0.85 * (protein - 12.4) + 2.6 * (ash - 0.6); }

double rounded(double value, int decimals) {
    const double tens = std::pow(10, decimals);
    return std::round(value * tens) / tens;
}

/// From the bits: not every platform's distributions agree.
class Figures {
public:
    explicit Figures(std::uint64_t seed) : random_(seed * 2654435761U + 97) {}
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(random_() >> 11) * 0x1.0p-53;
    }
    int whole(int below) { return static_cast<int>(random_() % static_cast<std::uint64_t>(below)); }
    /// About normal: the sum of twelve.
    double about(double mean, double deviation) {
        double sum = -6;
        for (int i = 0; i < 12; ++i)
            sum += between(0, 1);
        return mean + deviation * sum;
    }

private:
    std::mt19937_64 random_;
};

class Maker {
public:
    Maker(const MadeSize& size, std::uint64_t seed) : size_(size), seed_(seed), figures_(seed) {}

    std::string make() {
        make_runs();
        make_lots();
        json file = {{"name", size_.name + " made, seed " + std::to_string(seed_)},
                     {"units", "tonnes, days from horizon start, EUR"},
                     {"horizon", size_.days},
                     {"lines", size_.lines},
                     {"oxidantPointsPerPpm", 0.5},
                     {"weights", weights()}};
        file["lots"] = lots_;
        file["products"] = json::array();
        for (const Made& product : products)
            file["products"].push_back(product_of(product));
        file["runs"] = runs_;
        return file.dump(1) + "\n";
    }

private:
    static json weights() {
        const Weights w;
        return {{"shortPerT", w.short_per_t},
                {"specPerTHalfWidth", w.window_per_t_half_width},
                {"maturityPerT10pts", w.maturity_per_t_10_points},
                {"pastBestBeforePerT", w.past_best_per_t},
                {"wastePerT", w.waste_per_t},
                {"oxidantPerT100ppm", w.oxidant_per_t_100_ppm},
                {"lotChange", w.lot_change},
                {"ageQuadratic", w.age_quadratic},
                {"costScale", w.cost_scale}};
    }

    json product_of(const Made& product) {
        // The flour a window is made for has less bran than the limit allows.
        const double middle = absorption(product.protein, product.ash - 0.06);
        return {{"name", product.name},
                {"protein", {rounded(product.protein - 0.65, 3), rounded(product.protein + 0.65, 3)}},
                {"absorption", {rounded(middle - 1.4, 3), rounded(middle + 1.4, 3)}},
                {"liquefaction", {17.5, 29.5}},
                {"ash", {0.35, product.ash}},
                {"maturityTarget", product.maturity},
                {"maxLots", 2 + figures_.whole(3)},
                {"minShare", figures_.whole(2) == 0 ? 0.15 : 0.2},
                {"oxidantAllowed", product.may_dose},
                {"oxidantCapPpm", product.may_dose ? 150 : 60}};
    }

    /// Evenly over days, lines and shifts; every run follows the one before on its line.
    void make_runs() {
        std::vector<int> last(static_cast<std::size_t>(size_.lines), -1);
        runs_ = json::array();
        for (int r = 0; r < size_.runs; ++r) {
            const int day = static_cast<int>(static_cast<std::int64_t>(r) * size_.days / size_.runs);
            day_.push_back(day);
            const int first =
                static_cast<int>(std::lower_bound(day_.begin(), day_.end(), day) - day_.begin());
            const int line = (r - first) % size_.lines;
            product_.push_back(figures_.whole(static_cast<int>(products.size())));
            need_.push_back(rounded(std::clamp(figures_.about(11.2, 3.2), 3.5, 18.0), 1));
            runs_.push_back({{"id", "R" + std::to_string(r + 1)},
                             {"day", day},
                             {"shift", (r - first) / size_.lines},
                             {"line", line},
                             {"product", product_.back()},
                             {"demandT", need_.back()},
                             {"prevOnLine", last[line]}});
            last[line] = r;
        }
    }

    /// Each kind gets lots by its share of the demand, one after another for the runs of that kind in order
    /// of their days.
    void make_lots() {
        lots_ = json::array();
        std::array<double, kinds> demand{};
        double all = 0;
        for (std::size_t r = 0; r < need_.size(); ++r) {
            demand[products[product_[r]].kind] += need_[r];
            all += need_[r];
        }
        // By largest remainder down to one each: what is over goes to bread.
        std::array<int, kinds> count{};
        int given = 0;
        for (int k = pastry; k < kinds; ++k) {
            count[k] = demand[k] > 0 ? std::max(1, static_cast<int>(size_.lots * demand[k] / all + 0.5)) : 0;
            given += count[k];
        }
        count[bread] = std::max(1, size_.lots - given);
        for (int k = 0; k < kinds; ++k)
            make_lots_of(static_cast<Kind>(k), count[k], demand[k]);
    }

    void make_lots_of(Kind kind, int count, double demand) {
        std::vector<double> stock;
        double sum = 0;
        for (int i = 0; i < count; ++i)
            sum += stock.emplace_back(figures_.between(9, 28));
        std::vector<int> runs;
        for (std::size_t r = 0; r < product_.size(); ++r)
            if (products[product_[r]].kind == kind)
                runs.push_back(static_cast<int>(r));
        double before = 0; // demand that the lots made so far cover
        double passed = 0;
        std::size_t place = 0;
        for (int i = 0; i < count && !runs.empty(); ++i) {
            const double tonnes = rounded(stock[i] / sum * demand * size_.plenty, 1);
            while (place + 1 < runs.size() && passed + need_[runs[place]] <= before)
                passed += need_[runs[place++]];
            lots_.push_back(lot_for(runs[place], tonnes));
            before += tonnes;
        }
    }

    json lot_for(int run, double tonnes) {
        const Made& product = products[product_[run]];
        const double ready = std::floor(day_[run] - figures_.between(0, 27));
        const double milled = std::max(-40.0, std::floor(ready - figures_.between(4, 11)));
        const double arrived = std::floor(figures_.between(milled + 1, ready));
        const double best = milled + std::floor(figures_.between(product.kind == whole ? 28 : 40,
                                                                 product.kind == whole ? 60 : 85));
        const double protein = rounded(figures_.about(product.protein, 0.6), 2);
        const double typical = product.kind == soft    ? 0.48
                               : product.kind == whole ? product.ash - 0.06
                                                       : 0.59;
        const double ash = rounded(std::max(0.42, figures_.about(typical, typical * 0.07)), 2);
        static constexpr std::array mill_ppm{0, 0, 0, 0, 0, 0, 10, 30, 50, 60};
        return {{"id", "L" + std::to_string(lots_.size() + 1)},
                {"protein", protein},
                {"absorption", rounded(figures_.about(absorption(protein, ash), 0.45), 2)},
                {"fallingNumber", std::round(std::clamp(figures_.about(308, 42), 200.0, 410.0))},
                {"ash", ash},
                {"milled", milled},
                {"arrived", arrived},
                {"released", std::min(ready, arrived + figures_.whole(3))},
                {"readyFrom", ready},
                {"bestBefore", std::max(best, 1.0 + day_[run])},
                {"useBy", std::max(best, 1.0 + day_[run]) + std::floor(figures_.between(10, 26))},
                {"stockT", tonnes},
                {"costPerT", std::round(figures_.about(393 + 14 * (protein - 11.7), 15))},
                {"millOxidantPpm", mill_ppm[figures_.whole(10)]},
                {"maturityMax", rounded(figures_.between(72, 92), 1)},
                {"maturityTau", rounded(figures_.between(9, 18), 1)}};
    }

    const MadeSize& size_;
    std::uint64_t seed_;
    Figures figures_;
    json runs_;
    json lots_;
    std::vector<int> day_;
    std::vector<int> product_;
    std::vector<double> need_;
};

const std::array<MadeSize, 4> sizes{{{"S", 20, 30, 2, 7, 1.28},
                                     {"M", 60, 100, 3, 14, 1.08},
                                     {"L", 150, 300, 4, 30, 1.03},
                                     {"XL", 400, 1200, 8, 60, 1.03}}};

} // namespace

const MadeSize* made_size(const std::string& name) {
    const auto found =
        std::find_if(sizes.begin(), sizes.end(), [&](const MadeSize& size) { return size.name == name; });
    return found == sizes.end() ? nullptr : &*found;
}

std::string made_instance(const MadeSize& size, std::uint64_t seed) { return Maker(size, seed).make(); }

Problem made_problem(const MadeSize& size, std::uint64_t seed) {
    auto problem = exchange::read_instance(made_instance(size, seed));
    if (!problem)
        throw std::logic_error("a made instance is refused: " + in_words(problem.refusals().front()));
    return std::move(*problem);
}

} // namespace mellowbin::planning
