#include "app/acts/batch_draft.h"

#include "app/acts/scan_reading.h"
#include "app/acts/state.h"
#include "app/book/fields.h"
#include "app/book/settings.h"
#include "core/decimal.h"
#include "core/house_units.h"
#include "core/literature/constants.h"
#include "core/typed_text.h"
#include "dough/water.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <span>

namespace mellowbin::app {
namespace {

/// A figure off the card's by so much is a slip of the decimal point.
constexpr double slip = 5;

class Reader {
public:
    Reader(const State& s, const BatchDraft& draft, const RunCard& made_from)
        : s_(s), draft_(draft), made_from_(made_from), card_(*made_from.card),
          house_(house_units(s.book.settings)) {
        batch_.run = made_from.input.run.id;
        batch_.number = made_from.batch;
    }

    Result<Batch> read() {
        read_flour();
        read_water();
        read_oxidant();
        read_check();
        if (!refusals_.empty())
            return refusals_;
        describe();
        hear_the_verdict();
        if (!refusals_.empty())
            return refusals_;
        return batch_;
    }

private:
    void refuse(std::string field, std::string what, std::string remedy) {
        refusals_.push_back({std::move(field), std::move(what), std::move(remedy)});
    }

    [[nodiscard]] std::string typed_of(LotId lot) const {
        const auto at = std::find_if(draft_.flour.begin(), draft_.flour.end(),
                                     [&](const FlourGiven& given) { return given.lot == lot; });
        return at == draft_.flour.end() ? std::string{} : at->mass;
    }

    void read_flour() {
        constexpr Kilograms most{100'000};
        for (const auto& part : card_.flour) {
            const auto field = "Lot " + part.code;
            const auto typed = house_.read_mass(field, typed_of(part.lot), Kilograms{0}, most, refusals_);
            const Grams mass = typed ? to_grams(*typed) : part.mass;
            if (typed && is_slip(typed->value(), to_kilograms(part.mass).value()))
                refuse(field,
                       fmt::format("{} was read; the card says {}", house_.with_unit(*typed),
                                   house_.with_unit(to_kilograms(part.mass))),
                       "Check the decimal point; enter one batch, not the run");
            if (mass > Grams{0})
                batch_.flour.push_back({part.lot, mass});
            flour_ += to_kilograms(mass);
        }
        for (const auto& given : draft_.flour)
            if (!is_on_card(given.lot))
                read_other(given);
        judge_others();
        if (refusals_.empty() && batch_.flour.empty())
            refuse("Flour", "no flour of any lot was read",
                   "Enter what went in, or do not confirm the batch");
    }

    [[nodiscard]] bool is_on_card(LotId lot) const {
        return std::any_of(card_.flour.begin(), card_.flour.end(),
                           [&](const auto& part) { return part.lot == lot; });
    }

    /// The lot that is meant, of those in stock: by its number, or by the beginning of one alone.
    const Lot* other_of(const FlourGiven& given) {
        if (given.lot.is_known())
            return s_.book.lot(given.lot);
        const auto scanned = lot_in(s_.book.settings, given.code);
        const std::string code = scanned ? *scanned : std::string(trimmed(given.code));
        std::vector<const Lot*> alike;
        for (const auto& lot : s_.book.lots) {
            if (s_.book.is_aside(lot.id) || s_.book.stock.total(lot.id) <= Grams{0})
                continue;
            if (lot.code == code)
                return &lot;
            if (!code.empty() && lot.code.starts_with(code))
                alike.push_back(&lot);
        }
        if (alike.size() == 1)
            return alike.front();
        std::string codes;
        for (const auto* lot : alike)
            codes += (codes.empty() ? "" : ", ") + lot->code;
        refuse("Another lot", fmt::format("\"{}\" was read, which is no lot in stock", excerpt(code)),
               alike.empty() ? "Scan one of its bags, or type its number" : "Choose one of: " + codes);
        return nullptr;
    }

    void read_other(const FlourGiven& given) {
        constexpr Kilograms most{100'000};
        const Lot* lot = other_of(given);
        const auto typed = house_.read_mass("Its mass", given.mass, Kilograms{0}, most, refusals_);
        if (!lot)
            return;
        if (is_on_card(lot->id)) {
            refuse("Another lot", fmt::format("lot {} is on this card", lot->code),
                   "Type what went in of it at its own field");
            return;
        }
        if (std::any_of(others_.begin(), others_.end(),
                        [&](const OtherLot& other) { return other.lot == lot; })) {
            refuse("Another lot", fmt::format("lot {} was named twice", lot->code),
                   "Name it once, with all of it");
            return;
        }
        if (!typed || typed->value() <= 0) {
            if (trimmed(given.mass).empty())
                refuse("Its mass", fmt::format("is empty; what went in of lot {} is expected", lot->code),
                       "Enter its mass");
            return;
        }
        others_.push_back({lot, to_grams(*typed)});
        batch_.flour.push_back({lot->id, others_.back().mass});
        flour_ += *typed;
    }

    /// They are judged as any lot is, with those of the card.
    void judge_others() {
        if (others_.empty() || !refusals_.empty())
            return;
        with_others_ = with_lots(s_, made_from_, others_);
        if (!with_others_->card && why_not(with_others_->verdict, "").empty())
            append(refusals_, with_others_->card.refusals());
    }

    /// What the flour is looked up in, and what is heard of it.
    [[nodiscard]] const RunCard& of_all_flour() const { return with_others_ ? *with_others_ : made_from_; }

    static bool is_slip(double typed, double told) {
        return typed > 0 && told > 0 && (typed >= slip * told || typed <= told / slip);
    }

    void read_water() {
        constexpr Kilograms most{100'000};
        const auto typed = house_.read_mass("Water", draft_.water, Kilograms{0}, most, refusals_);
        const auto ice = house_.read_mass("Ice", draft_.ice, Kilograms{0}, most, refusals_);
        // Hotter water kills the yeast: such a dough is none.
        typed_temperature_ =
            house_.read_temperature("Water temperature", draft_.water_temperature, Celsius{-5},
                                    Celsius{literature::dough_water_hottest.value}, refusals_);
        typed_water_ = typed;
        if (!card_.water && !typed)
            refuse("Water", "the card cannot tell the water, so what went in has to be entered",
                   "Enter the water by \"Something else went in\"");
        const Kilograms told = card_.water ? card_.water->told : Kilograms{};
        batch_.ice = ice.value_or(card_.water ? card_.water->ice : Kilograms{});
        batch_.water = typed.value_or(told);
        if (typed_temperature_)
            batch_.water_temperature = typed_temperature_;
        else if (card_.temperature)
            batch_.water_temperature = card_.temperature->mix.water_temperature;
    }

    void read_oxidant() {
        if (!made_from_.input.product.oxidant)
            return;
        const auto* dose = card_.oxidant && *card_.oxidant ? &**card_.oxidant : nullptr;
        const bool pours = dose && dose->pouring;
        const auto unit = pours ? "mL" : "g";
        const auto typed = read_decimal_within("Oxidant", draft_.oxidant, {0, 100'000, unit});
        if (!typed) {
            append(refusals_, typed.refusals());
            return;
        }
        if (!*typed && !dose) {
            refuse("Oxidant", in_words(card_.oxidant->refusals().front()),
                   "Put that right, or enter 0 if the dough was made without");
            return;
        }
        const double told = told_amount(dose);
        const double amount = typed->value_or(told);
        if (*typed && is_slip(amount, told)) {
            refuse("Oxidant",
                   fmt::format("{:g} {} was read; the card says {:g} {}", amount, unit, told, unit),
                   "Check the decimal point. If so much really went in, keep the dough back and tell quality "
                   "staff");
            return;
        }
        if (amount > 0)
            dose_of(amount, pours, typed->has_value(), dose);
    }

    static double told_amount(const dough::CardOxidant* dose) {
        if (dose && dose->pouring)
            return dose->pouring->rounded.value();
        return dose && dose->weighing ? dose->weighing->rounded_g : 0;
    }

    /// mg per kg of the flour that really went in, held against the law again.
    void dose_of(double amount, bool pours, bool was_typed, const dough::CardOxidant* told) {
        const auto& input = made_from_.input;
        const Substance substance = *input.product.oxidant;
        double grams = amount * input.oxidant_purity;
        if (pours) {
            grams = amount / 1000 * told->stock_g_per_l;
            batch_.poured_ml = amount;
            if (made_from_.solution)
                batch_.solution = made_from_.solution->id;
        }
        if (flour_.value() <= 0)
            return;
        batch_.oxidant = substance;
        batch_.dose = OxidantPpm{grams * 1000 / flour_.value()};
        if (!was_typed && draft_.flour.empty())
            return; // as the card says, and the card was judged
        const dough::Sale sale{input.product.market, input.product.food,
                               input.mixed_on.value_or(input.run.day)};
        const auto& all = of_all_flour().card;
        const auto& carried = all ? all->carried : card_.carried;
        const auto judged = dough::judge_dose(input.law, sale, {substance, batch_.dose}, carried,
                                              input.product.house_maximum);
        if (judged.is_permitted())
            return;
        const double most_g = told ? told->room.room.value() * flour_.value() / 1000 : 0;
        refuse("Oxidant",
               fmt::format("{} mg/kg in this flour: {}", fixed(batch_.dose.value(), 1), judged.words),
               fmt::format(
                   "At most {} g of the substance is permitted here. If more really went in, keep the dough "
                   "back and tell quality staff",
                   fixed(most_g, 2)));
    }

    void read_check() {
        batch_.checked_by = trimmed(draft_.checked_by);
        if (!made_from_.needs_check || batch_.dose.value() <= 0)
            return;
        if (batch_.checked_by.empty())
            refuse("Checked by", "is empty; a second person checks the oxidant first",
                   "Have somebody look at the scale and enter the name");
        else if (batch_.checked_by == s_.setup.person)
            refuse("Checked by", "is the person who confirms; a second one is expected",
                   "Enter the other name");
    }

    /// What the card says of the batch, and what was typed beside it.
    void hear_the_verdict() {
        auto verdict = of_all_flour().verdict;
        const dough::TypedFigures typed{typed_water_, typed_temperature_, {}};
        for (auto& one : dough::verdict_of(made_from_.input, card_, typed).against)
            object(verdict, one.reason, one.at, std::move(one.words), std::move(one.lifted_by));
        hear_of_all_flour(verdict);
        batch_.answer = trimmed(draft_.answer);
        append(refusals_, why_not(verdict, batch_.answer));
        if (verdict.against.empty())
            batch_.answer.clear();
    }

    /// Another lot went in, and the card's as if it had not: whoever forgets to take off the lot that it
    /// replaced is asked.
    void hear_of_all_flour(dough::Verdict& verdict) const {
        const Kilograms told = to_kilograms(card_.batch_flour);
        const double off = std::abs(flour_ / told - 1) * 100;
        if (others_.empty() || off <= made_from_.input.distances.water_percent)
            return;
        object(verdict, dough::MixReason::typed_far_off, dough::CautionAt::flour,
               fmt::format(
                   "With lot {} it is {} of flour, the card says {}: enter 0 at the lot that it replaced",
                   others_.front().lot->code, house_.with_unit(flour_), house_.with_unit(told)));
    }

    /// What the flour and the water came to, for learning; refuses water that no dough or line can have.
    void describe() {
        const auto& input = of_all_flour().input;
        batch_.room_temperature = input.line.room;
        std::vector<dough::WaterLot> lots;
        double warmth = 0;
        for (const auto& part : batch_.flour) {
            const auto at = std::find_if(input.lots.begin(), input.lots.end(),
                                         [&](const dough::CardLot& lot) { return lot.lot->id == part.lot; });
            const auto mass = to_kilograms(part.mass);
            lots.push_back({"Lot " + at->lot->code, &at->lot->certificate, mass,
                            at->start ? std::optional{at->start->absorption} : std::nullopt});
            warmth += mass / flour_ * at->temperature.value();
        }
        batch_.flour_temperature = Celsius{warmth};
        const auto offset = card_.water ? card_.water->dough.offset : input.product.water_offset;
        const auto water = dough::dough_water(lots, offset, input.water_correction, input.line.water_step_kg);
        if (!water)
            return; // without a certificate there is nothing to learn from
        const Kilograms all = batch_.water + batch_.ice + Kilograms{batch_.poured_ml / 1000};
        const Kilograms in_ingredients = water_of(input.product.ingredients, flour_);
        const auto& line = input.line;
        // What was only read off the card is not held against the typist.
        const bool typed = !draft_.water.empty() || !draft_.ice.empty() || typed_temperature_;
        if (typed)
            if (const auto possible = dough::possible_water(
                    {all, batch_.ice, typed_temperature_, in_ingredients}, *water,
                    {line.tap_water, line.coldest_water, line.most_ice, line.ice_temperature}, house_);
                !possible) {
                append(refusals_, possible.refusals());
                return;
            }
        batch_.farinograph = water->farinograph;
        batch_.absorption = water->absorption_with(all + in_ingredients);
    }

    const State& s_;
    const BatchDraft& draft_;
    const RunCard& made_from_;
    const dough::Card& card_;
    HouseUnits house_;
    Batch batch_;
    Kilograms flour_;
    std::vector<OtherLot> others_; ///< that are not on the card
    std::unique_ptr<RunCard> with_others_;
    std::optional<Kilograms> typed_water_;
    std::optional<Celsius> typed_temperature_;
    Refusals refusals_;
};

} // namespace

Result<Batch> accept(const State& s, const BatchDraft& draft, const RunCard& made) {
    return Reader(s, draft, made).read();
}

Refusals why_not(const dough::Verdict& verdict, std::string_view answer) {
    const bool is_stopped = verdict.may_mix() == dough::MayMix::do_not_mix;
    Refusals refusals;
    for (const auto& one : verdict.against) {
        const bool is_stop = traits(one.reason).may_mix == dough::MayMix::do_not_mix;
        if (is_stop)
            refusals.push_back({"Do not mix", one.words, one.lifted_by});
        else if (answer.empty() && !is_stopped)
            refusals.push_back({"Reason", "is empty. " + one.words, one.lifted_by});
    }
    return refusals;
}

Result<BatchResult> accept(const State& s, const ResultDraft& draft) {
    const HouseUnits house = house_units(s.book.settings);
    Refusals refusals;
    BatchResult result;
    // Dough outside these is none: yeast dies above, and a mixer freezes nothing.
    result.dough_temperature = house.read_temperature("Dough temperature", draft.dough_temperature,
                                                      Celsius{0}, Celsius{45}, refusals);
    const auto number = [&](std::string_view field, const std::string& text, Bounds bounds) {
        const auto read = read_decimal_within(field, text, bounds);
        if (!read)
            append(refusals, read.refusals());
        return read ? *read : std::nullopt;
    };
    result.ph = number("pH", draft.ph, {3, 8, ""});
    result.mixing_minutes = number("Mixing", draft.mixing_minutes, {0, 120, "min"});
    if (const auto minutes = number("Fermentation", draft.fermentation_minutes, {0, 2880, "min"}))
        result.fermentation_minutes = static_cast<int>(std::lround(*minutes));
    if (!draft.feel.empty()) {
        result.feel = feel_from_key(draft.feel);
        if (!result.feel)
            refusals.push_back(
                {"Feel", fmt::format("\"{}\" was read", draft.feel), "Choose one of: stiff, right, slack"});
    }
    result.note = trimmed(draft.note);
    if (refusals.empty() && result == BatchResult{})
        refusals.push_back({"Result", "is empty", "Enter what is known of the dough: a temperature, a word"});
    if (!refusals.empty())
        return refusals;
    return result;
}

} // namespace mellowbin::app
