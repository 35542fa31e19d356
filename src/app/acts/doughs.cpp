#include "app/acts/doughs.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/fields.h"
#include "app/models/touched_runs.h"
#include "core/draft_reader.h"
#include "core/literature/constants.h"
#include "core/typed_text.h"
#include "db/batch_store.h"
#include "db/plant_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <span>
#include <type_traits>

namespace mellowbin::app {
namespace {

constexpr std::array all_processes{DoughProcess::straight, DoughProcess::sponge, DoughProcess::no_time};
constexpr std::array all_preservatives{Preservative::calcium_propionate, Preservative::sodium_propionate,
                                       Preservative::cultured_wheat};

/// The value of this name; a refusal that lists the names where there is none.
template <class All>
auto of_name(DraftReader& reader, std::string_view field, std::string_view typed, const All& all)
    -> std::optional<std::decay_t<decltype(*all.begin())>> {
    std::string names;
    for (const auto one : all) {
        if (name_of(one) == typed || key_of(one) == typed)
            return one;
        names += (names.empty() ? "" : ", ") + std::string(name_of(one));
    }
    reader.refuse(field, fmt::format("\"{}\" is not known", excerpt(typed)), "Choose one of: " + names);
    return {};
}

class DoughChange {
public:
    DoughChange(const ChangeDough& intent, Product product, std::span<const Market> markets)
        : intent_(intent), product_(std::move(product)), markets_(markets) {}

    Result<Product> read() {
        if (!intent_.process.empty())
            if (const auto process = of_name(reader_, "Process", intent_.process, all_processes))
                product_.process = *process;
        if (const auto minutes =
                reader_.number("Longest fermentation", intent_.most_fermentation, {0, 2880, "min"}))
            product_.most_fermentation_minutes = static_cast<int>(std::lround(*minutes));
        if (intent_.maturity_per_hour == "none")
            product_.maturity_per_hour.reset();
        else if (const auto percent =
                     reader_.number("Gain an hour", intent_.maturity_per_hour, {0, 100, "%"}))
            product_.maturity_per_hour = *percent / 100;
        read_water();
        read_keeping();
        read_sale();
        if (!reader_.refusals.empty())
            return reader_.refusals;
        return accept_product(product_);
    }

private:
    void read_water() {
        if (const auto points = reader_.number("Water offset", intent_.water_offset, {-30, 30, "points"})) {
            product_.water_offset = AbsorptionPoints{*points};
            product_.is_offset_assumed = intent_.is_offset_assumed;
        }
    }

    void read_keeping() {
        if (!intent_.preservative.empty())
            if (const auto found = of_name(reader_, "Preservative", intent_.preservative, all_preservatives))
                product_.preservative = *found;
        if (const auto percent =
                reader_.number("Preservative dose", intent_.preservative_percent, {0, 5, "%"}))
            product_.propionate_percent = *percent;
        if (const auto percent =
                reader_.number("Acid in cultured wheat", intent_.cultured_acid, {0, 100, "%"}))
            product_.cultured_acid_percent = *percent;
        if (intent_.erh == "none")
            product_.bread_erh.reset();
        else if (const auto erh = reader_.number("ERH", intent_.erh, {50, 100, "%"}))
            product_.bread_erh = *erh;
        if (intent_.enzyme == "none")
            product_.enzyme.clear();
        else if (!trimmed(intent_.enzyme).empty())
            product_.enzyme = trimmed(intent_.enzyme);
    }

    void read_sale() {
        if (intent_.sold_as == "none")
            product_.sold_as.reset();
        else if (!intent_.sold_as.empty())
            if (const auto found = of_name(reader_, "Sold as", intent_.sold_as, all_sold_as()))
                product_.sold_as = *found;
        if (!intent_.market.empty())
            read_market();
        if (const auto most = reader_.number("House maximum", intent_.house_maximum, {0, 1000, "mg/kg"}))
            product_.house_maximum = OxidantPpm{*most};
    }

    void read_market() {
        std::string keys;
        for (const auto& market : markets_) {
            if (market.key == intent_.market || market.name == intent_.market) {
                product_.market = market.key;
                return;
            }
            keys += (keys.empty() ? "" : ", ") + market.key;
        }
        reader_.refuse("Market", fmt::format("\"{}\" is not known", excerpt(intent_.market)),
                       "Choose one of: " + keys);
    }

    const ChangeDough& intent_;
    Product product_;
    std::span<const Market> markets_;
    DraftReader reader_;
};

/// The runs whose cards differ by it.
std::string touched_by(const State& state, const Product& changed) {
    Ruled then = Ruled::by(state.book);
    std::replace_if(
        then.products.begin(), then.products.end(), [&](const Product& one) { return one.id == changed.id; },
        changed);
    return touched_in_words(
        runs_touched(state, then, [&](const Product& now) { return now.id == changed.id; }));
}

/// Puts every field back that a change may have moved.
ChangeDough as_it_stands(const Product& product) {
    const auto or_none = [](const std::string& text) { return text.empty() ? std::string("none") : text; };
    ChangeDough before;
    before.product = product.name;
    before.process = name_of(product.process);
    before.most_fermentation = std::to_string(product.most_fermentation_minutes);
    before.maturity_per_hour =
        product.maturity_per_hour ? fmt::format("{:g}", 100 * *product.maturity_per_hour) : "none";
    before.preservative = name_of(product.preservative);
    before.preservative_percent = fmt::format("{:g}", product.propionate_percent);
    before.cultured_acid = fmt::format("{:g}", product.cultured_acid_percent);
    before.erh = product.bread_erh ? fmt::format("{:g}", *product.bread_erh) : "none";
    before.enzyme = or_none(product.enzyme);
    before.sold_as = or_none(product.sold_as ? std::string(key_of(*product.sold_as)) : "");
    before.market = product.market;
    before.house_maximum = fmt::format("{}", product.house_maximum.value());
    return before;
}

} // namespace

Result<Told> carry_out(State& state, const ChangeDough& intent) {
    Refusals refusals;
    const Product* product = named(state.book.products, "Product", intent.product, refusals);
    if (!product)
        return refusals;
    const auto changed = DoughChange(intent, *product, state.book.markets).read();
    if (!changed)
        return changed.refusals();
    if (*changed == *product)
        return Told{fmt::format("{}: nothing was changed", product->name)};
    const auto words = fmt::format("{}: how its dough is helped and its bread kept was changed{}",
                                   product->name, touched_by(state, *changed));
    Change change = state.change("change_dough", subject_of(*product), words);
    auto before = as_it_stands(*product);
    if (changed->water_offset != product->water_offset ||
        changed->is_offset_assumed != product->is_offset_assumed) {
        before.water_offset = fmt::format("{:g}", product->water_offset.value());
        before.is_offset_assumed = product->is_offset_assumed;
    }
    const auto id = PlantStore(*state.connection).save(change, *changed);
    if (!id)
        return change.refuse(id.refusals());
    change.commit();
    ++state.batches_logged;
    return Told{words, Touched::nothing, "Undo: as it was", {before}};
}

} // namespace mellowbin::app
