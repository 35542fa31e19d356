#include "dough/card_parts.h"
#include "dough/keeping_ruling.h"

#include <fmt/format.h>

namespace mellowbin::dough::parts {
namespace {

constexpr double grams_per_kilogram = 1000;

void judge_ph(const CardInput& input, CardKeeping& keeping) {
    keeping.ph = input.bread_ph;
    if (!input.bread_ph)
        return;
    keeping.ph_words = input.ph_words;
    if (const auto share = undissociated_share(*input.bread_ph))
        keeping.undissociated = *share;
}

void warn_of_the_dose(const CardKeeping& keeping, Card& card) {
    if (keeping.preservative == Preservative::cultured_wheat && !keeping.in_bread)
        warn(card, CautionKind::estimate, CautionAt::bread,
             "What the cultured wheat holds of propionic acid is not known: ask its supplier for the figure");
    if (keeping.is_withheld)
        warn(card, CautionKind::law, CautionAt::bread,
             fmt::format("{} is withheld: {}", name_of(keeping.preservative), keeping.withheld_words));
}

} // namespace

void keep_bread(const CardInput& input, Card& card) {
    const auto& product = input.product;
    if (input.early_mould)
        warn(card, CautionKind::process, CautionAt::bread,
             fmt::format("Mould was seen on day {}: clean cooling, slicer and bagging first, then look at "
                         "the dose (common "
                         "practice, no source)",
                         *input.early_mould));
    auto ruling = rule_on_keeping(product, input.propionate_rows, input.law.markets, input.bread_ph);
    if (!ruling)
        return;
    CardKeeping keeping;
    keeping.preservative = product.preservative;
    keeping.percent_of_flour = product.propionate_percent;
    keeping.is_withheld = ruling->is_withheld();
    if (keeping.is_withheld)
        keeping.withheld_words = ruling->words();
    else
        keeping.exact_g =
            to_kilograms(card.batch_flour).value() * product.propionate_percent / 100 * grams_per_kilogram;
    keeping.in_bread = ruling->in_bread;
    keeping.judged = std::move(ruling->judged);
    judge_ph(input, keeping);
    warn_of_the_dose(keeping, card);
    warn(card, CautionKind::process, CautionAt::bread,
         "Clean first: baking kills spores, the loaf catches new ones while it cools and is sliced");
    card.keeping = std::move(keeping);
}

} // namespace mellowbin::dough::parts
