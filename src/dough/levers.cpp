#include "dough/levers.h"

#include "core/decimal.h"
#include "core/literature/constants.h"
#include "dough/card_parts.h"
#include "dough/levers_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::dough {
namespace parts {
namespace {

constexpr double slight = 0.005; ///< of maturity: less than is shown of it

Reach reach_of(double maturity, const LeverGround& ground) {
    return maturity >= ground.target - 1e-9 ? Reach::reaches : Reach::helps;
}

/// What was published of an hour of sponge, in its own words (Kilborn, Nomura and Preston 1981). It is no
/// figure of maturity: an oxidant is not turned into that.
std::string published_hour() {
    const auto& hour = literature::dough_sponge_hour_bromate;
    return fmt::format(
        "Published: as much as {:g} to {:g} mg/kg of bromate an hour, strong flours, sponge (Kilborn "
        "et al. 1981). What an hour does for this flour's maturity only its own bakes say: bake it "
        "at two times and enter what it gained",
        hour.low, hour.high);
}

std::string why_not_longer(const LeverGround& ground, int most) {
    const auto& product = ground.batch.product;
    if (product.process == DoughProcess::no_time)
        return "A no-time dough has no bulk fermentation to lengthen";
    if (most <= 0 && ground.batch.run.longer_fermentation_minutes > 0)
        return fmt::format("It ferments {} min already; the product allows no more",
                           product.fermentation_minutes);
    if (most <= 0)
        return fmt::format("The product's fermentation of {} min is not to be lengthened",
                           product.fermentation_minutes);
    if (product.maturity_per_hour)
        return {};
    if (product.process == DoughProcess::sponge)
        return published_hour();
    return "What an hour more does to this dough is not known: published for sponge doughs only. Bake the "
           "same flour at two times and enter what it gained";
}

} // namespace

WaitLever weigh_waiting(const LeverGround& ground) {
    WaitLever lever;
    if (ground.missing <= 0) {
        lever.reach = Reach::not_needed;
        return lever;
    }
    if (ground.input.wait.empty()) {
        lever.reach = Reach::not_known;
        return lever;
    }
    lever.probability_now = ground.input.wait.front().probability;
    const auto reached =
        std::find_if(ground.input.wait.begin(), ground.input.wait.end(),
                     [&](const WaitDay& day) { return day.counted.value() >= ground.target - 1e-9; });
    lever.last_seen = ground.input.wait.back();
    if (reached != ground.input.wait.end())
        lever.reached_on = reached->day;
    lever.reach = lever.reached_on ? Reach::reaches : Reach::helps;
    return lever;
}

OxidantLever weigh_oxidant(const LeverGround& ground) {
    OxidantLever lever;
    lever.maturity = Maturity{ground.counted};
    if (!ground.batch.product.oxidant) {
        lever.reach = Reach::forbidden;
        lever.why_not = "The product goes without oxidant";
        return lever;
    }
    if (!ground.card.oxidant || !*ground.card.oxidant) {
        const auto room = room_for(ground.batch.law, sale_of(ground.batch), *ground.batch.product.oxidant,
                                   ground.card.carried, ground.batch.product.house_maximum);
        if (room.permission != Permission::permitted) {
            lever.reach = Reach::forbidden;
            lever.why_not = room.words;
            return lever;
        }
        lever.reach = Reach::not_known;
        lever.why_not =
            ground.card.oxidant ? mellowbin::in_words(ground.card.oxidant->refusals().front()) : "";
        return lever;
    }
    lever.dose = **ground.card.oxidant;
    const auto& dose = *lever.dose;
    if (dose.room.permission != Permission::permitted) {
        lever.reach = Reach::forbidden;
        lever.why_not = dose.room.words;
        return lever;
    }
    lever.maturity = dose.effect.maturity;
    lever.grams_per_run = dose.exact_g * ground.batch.run.batches;
    lever.money = lever.grams_per_run / 1000 * ground.input.prices.oxidant_per_kg;
    // What bakes say is the best dose is enough by them, whatever the general curve makes of it.
    const bool is_baked_best = dose.baked && dose.origin == Origin::measured && dose.exact == dose.wanted;
    if (ground.missing <= 0 && dose.exact.value() <= 0)
        lever.reach = Reach::not_needed;
    else // what a scale's step takes off is not held against it
        lever.reach = is_baked_best ? Reach::reaches : reach_of(lever.maturity.value() + slight, ground);
    if (dose.exact.value() <= 0 && ground.missing > 0)
        lever.why_not = dose.room.room.value() <= 0 ? "No room is left: " + dose.room.words
                        : is_baked_best             ? "None goes in: by its bakes none is best"
                                                    : "None is needed: the mill has seen to it";
    return lever;
}

FermentLever weigh_fermentation(const LeverGround& ground) {
    const auto& product = ground.batch.product;
    FermentLever lever;
    lever.most = std::max(0, product.most_fermentation_minutes - product.fermentation_minutes);
    lever.maturity = Maturity{ground.counted};
    if (ground.missing <= 0) {
        lever.reach = Reach::not_needed;
        return lever;
    }
    lever.why_not = why_not_longer(ground, lever.most);
    if (!lever.why_not.empty()) {
        const bool is_unknown = lever.most > 0 && product.process != DoughProcess::no_time;
        lever.reach = is_unknown ? Reach::not_known : Reach::forbidden;
        return lever;
    }
    const double hour = *product.maturity_per_hour;
    if (hour <= 0) {
        lever.reach = Reach::not_known;
        lever.why_not = "An hour more was found to do nothing";
        return lever;
    }
    lever.is_calibrated = true;
    lever.maturity_per_hour = hour;
    lever.minutes = ground.missing / hour * 60;
    const double used = std::min<double>(lever.minutes, lever.most);
    lever.maturity = Maturity{std::min(1.0, ground.counted + used / 60 * hour)};
    lever.money = used * ground.input.prices.line_per_minute * ground.batch.run.batches;
    lever.reach = reach_of(lever.maturity.value(), ground);
    return lever;
}

WaterLever weigh_water(const LeverGround& ground) {
    WaterLever lever;
    if (!ground.card.water) {
        lever.reach = Reach::not_known;
        lever.why_not = mellowbin::in_words(ground.card.water.refusals().front());
        return lever;
    }
    lever.optimum = ground.card.water->dough.target;
    lever.optimum_sd = ground.card.water->sd;
    lever.stands = ground.input.last_water;
    if (!lever.stands) {
        lever.reach = Reach::not_known;
        lever.why_not = "No batch of the product has been logged with its water yet";
        return lever;
    }
    // Within what a mixer feels: the band of the farinograph's consistency.
    const bool is_off = std::abs(lever.stands->from_optimum.value()) >
                        std::max(literature::dough_consistency_band.value, lever.stands->sd);
    lever.reach = is_off ? Reach::helps : Reach::not_needed;
    return lever;
}

TooFar beyond(const LeverGround& ground, const OxidantLever& oxidant) {
    TooFar far;
    const auto& input = ground.batch;
    for (const auto& figure : ground.card.blend)
        for (const auto& window : input.product.windows)
            if (figure.value && window.property == figure.property && window.high &&
                *figure.value > *window.high && figure.property == Property::protein)
                far.words.push_back(fmt::format("Too strong: protein {} % is above {}. Blend it with a "
                                                "weaker lot, give it more water and "
                                                "longer mixing, or take it for a product that wants it",
                                                fixed(*figure.value, 1), window.in_words()));
    if (oxidant.dose && oxidant.dose->effect.is_over_oxidised())
        far.words.push_back(
            fmt::format("Over-oxidised: what goes in is {} % of what the protein can take up. Dough may turn "
                        "bucky, short "
                        "and dry, loaves small. Where that begins in this flour only a test bake series says",
                        fixed(100 * oxidant.dose->effect.sh_share, 0)));
    if (oxidant.dose && oxidant.dose->baked)
        for (const auto& carried : ground.card.carried)
            if (carried.substance == oxidant.dose->substance && oxidant.dose->baked->high.value() <= 0 &&
                carried.dose.value() > 0)
                far.words.push_back(fmt::format("The mill's {} is already all its loaves like: add none",
                                                in_words(carried.dose)));
    return far;
}

double maturity_per_ppm(const LeverGround& ground) {
    const auto& product = ground.batch.product;
    if (!product.oxidant)
        return 0;
    if (!is_dosed_by_maturity(*product.oxidant))
        return 0;
    // Doses are of all the flour; they act on the part that carries the strength.
    return 1 / (ground.card.all_aging.likely.value() * ground.card.strength_share);
}

} // namespace parts

Result<Levers> weigh_levers(const LeversInput& input) {
    const auto card = make_card(input.card);
    if (!card)
        return card.refusals();
    const CardInput batch = parts::for_one_batch(input.card);
    Levers levers;
    levers.counted = card->maturity;
    levers.lowest = card->lowest;
    levers.highest = card->highest;
    levers.target = input.card.product.maturity_target;
    levers.missing = std::max(0.0, levers.target.value() - levers.counted.value());
    if (levers.missing < 1e-9)
        levers.missing = 0;
    const parts::LeverGround ground{input,
                                    batch,
                                    *card,
                                    to_kilograms(input.card.run.flour) * card->strength_share,
                                    levers.counted.value(),
                                    levers.target.value(),
                                    levers.missing};
    levers.wait = parts::weigh_waiting(ground);
    levers.blend = parts::weigh_blending(ground);
    levers.oxidant = parts::weigh_oxidant(ground);
    levers.ferment = parts::weigh_fermentation(ground);
    levers.water = parts::weigh_water(ground);
    levers.too_far = parts::beyond(ground, levers.oxidant);
    if (levers.missing > 0) {
        levers.mixes = parts::mix_levers(ground, levers);
        if (levers.mixes.empty())
            levers.no_mix =
                levers.wait.reached_on
                    ? "Blend, oxidant and fermentation together do not reach it on this day: wait"
                    : "Blend, oxidant and fermentation together do not reach it: take another flour, "
                      "or another product for this one";
    }
    return levers;
}

} // namespace mellowbin::dough
