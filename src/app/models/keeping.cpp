#include "app/models/keeping.h"

#include "app/book/station.h"
#include "app/models/run_card.h"
#include "core/decimal.h"
#include "dough/keeping_ruling.h"
#include "dough/site_record.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

void show_dose(const Product& product, const std::optional<dough::KeepingRuling>& ruling,
               KeepingModel& model) {
    if (!ruling) {
        model.figures.push_back({"Preservative", {}, 0, "", "kept off by cleanliness alone", "none"});
        return;
    }
    Figure dose{std::string(name_of(product.preservative)), product.propionate_percent, -1, "% of flour",
                fmt::format("yield {:g} kg of bread per kg of flour", product.bread_yield)};
    model.is_withheld = ruling->is_withheld();
    if (model.is_withheld) {
        dose.value.reset();
        dose.note = "withheld: " + ruling->words();
    }
    model.figures.push_back(std::move(dose));
    if (ruling->in_bread)
        model.figures.push_back(
            {"In the bread", ruling->in_bread->as_salt, 0, "mg/kg as salt",
             fmt::format("{} mg/kg as propionic acid, at {:g} % of flour",
                         fixed(ruling->in_bread->as_acid, 0), product.propionate_percent)});
    else if (product.preservative == Preservative::cultured_wheat)
        model.warnings.emplace_back(
            "What the cultured wheat holds of propionic acid is not known: ask its supplier, "
            "or the market's limit cannot be judged");
}

void show_ph(const Station& s, const Product& product, KeepingModel& model) {
    const auto measured = newest_ph(s.book, product.id);
    if (!measured) {
        model.figures.push_back({"pH", {}, 2, "", "not measured: log it with a batch, or of the crumb here"});
        return;
    }
    model.figures.push_back({"pH", measured->ph, 2, "", measured->words});
    if (product.propionate_percent <= 0)
        return;
    const auto acid = dough::acid_at_work(measured->ph);
    if (!acid)
        return;
    auto note = dough::in_words(*acid);
    if (!model.is_withheld)
        note += fmt::format(", {} % of flour in place of {:g} %",
                            fixed(product.propionate_percent * acid->times_the_dose, 2),
                            product.propionate_percent);
    model.figures.push_back({"Acid that works", 100 * acid->share, 1, "%", std::move(note)});
}

KeepingLimit::Standing standing_of(dough::Keeping keeping) {
    switch (keeping) {
    case dough::Keeping::permitted:
        return KeepingLimit::Standing::permitted;
    case dough::Keeping::unconfirmed:
        return KeepingLimit::Standing::unconfirmed;
    case dough::Keeping::not_known:
        return KeepingLimit::Standing::not_known;
    case dough::Keeping::forbidden:
        break;
    }
    return KeepingLimit::Standing::forbidden;
}

void show_limits(const Product& product, const dough::KeepingRuling& ruling, KeepingModel& model) {
    for (const auto& judged : ruling.judged)
        model.limits.push_back({standing_of(judged.keeping), judged.words});
    if (product.preservative == Preservative::cultured_wheat)
        model.limits.push_back(
            {KeepingLimit::Standing::unconfirmed,
             "Whether a cultured wheat counts as propionate is a matter of local law: its acid is "
             "compared with the limits as if it did"});
}

std::string mould_line_words(const Product& product) {
    if (!product.bread_erh)
        return "Days by the published lines are not told: the ERH of the crumb is not entered, and bread "
               "lies above "
               "their range. The site's own record says";
    const auto cool = dough::mould_free_days(dough::MouldLine::at_21, *product.bread_erh);
    const auto warm = dough::mould_free_days(dough::MouldLine::at_27, *product.bread_erh);
    if (!cool || !warm)
        return in_words(cool ? warm.refusals().front() : cool.refusals().front());
    return fmt::format(
        "At ERH {:g} % an unpreserved cake keeps {} days at 21 °C, {} at 27 °C (published lines; bread "
        "may differ)",
        *product.bread_erh, fixed(*cool, 1), fixed(*warm, 1));
}

std::string site_words(const dough::SiteMould& mould) {
    if (mould.bakes == 0)
        return "No bake was looked at yet: log on which day mould is seen, and on which it is not";
    auto words = fmt::format("{} {} looked at, mould in {}", mould.bakes, mould.bakes == 1 ? "bake" : "bakes",
                             mould.bakes_with_mould);
    if (mould.earliest)
        words += fmt::format("; earliest on day {}", *mould.earliest);
    if (mould.free_to)
        words += fmt::format("; free of it to day {} in every bake looked at then", *mould.free_to);
    return words;
}

void list_records(const Station& s, ProductId product, KeepingModel& model) {
    for (const auto& record : s.book.keeping) {
        if (record.product != product)
            continue;
        auto words =
            record.kind == KeepingKind::firmness
                ? fmt::format("day {}: firmness {:g} g", record.days, record.firmness_g)
                : fmt::format("day {}: {}", record.days, record.mould_seen ? "mould seen" : "no mould");
        if (record.ph)
            words += fmt::format(", pH {}", fixed(*record.ph, 2));
        if (!record.note.empty())
            words += ", " + record.note;
        model.records.insert(model.records.begin(),
                             {record.id, record.baked_on, std::move(words), record.who, record.is_withdrawn});
    }
}

} // namespace

KeepingModel make_keeping(const Station& s, ProductId id) {
    KeepingModel model;
    const Product* product = s.book.product(id);
    if (!product)
        return model;
    model.product = id;
    model.product_name = product->name;
    model.sold_as = product->sold_as;
    const auto ruling = dough::rule_on_keeping(*product, s.book.propionates, s.book.markets);
    show_dose(*product, ruling, model);
    show_ph(s, *product, model);
    model.figures.push_back({"Enzyme for softness",
                             {},
                             0,
                             "",
                             "no model: the firmness record says what it does here",
                             product->enzyme.empty() ? "none" : product->enzyme});
    if (ruling)
        show_limits(*product, *ruling, model);
    model.mould_line = mould_line_words(*product);
    const auto mould = dough::site_mould(s.book.keeping, id);
    model.site_words = site_words(mould);
    if (mould.newest_mould && dough::is_early_mould(*mould.newest_mould))
        model.warnings.push_back(fmt::format("Mould on day {} of the newest bakes", *mould.newest_mould));
    const auto measured = newest_ph(s.book, id);
    model.advice = dough::keeping_advice(mould, measured ? std::optional{measured->ph} : std::nullopt,
                                         product->propionate_percent > 0);
    const Flour* flour = s.book.flour(product->flour);
    model.practice = dough::keeping_practice(flour ? flour->flour_class : FlourClass::white);
    list_records(s, id, model);
    for (const auto& day : dough::firmness_by_day(s.book.keeping, id))
        model.firmness.push_back({day.days, day.low, day.mean, day.high, day.loaves});
    return model;
}

} // namespace mellowbin::app
