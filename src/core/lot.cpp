#include "core/lot.h"

#include "core/door.h"
#include "core/draft_reader.h"
#include "core/lot_words.h"

#include <array>

namespace mellowbin {
namespace {

struct StateNames {
    std::string_view key;
    std::string_view name;
    std::string_view words; ///< in a sentence
};
constexpr std::array states{
    StateNames{"awaiting_judgement", "In quarantine", "in quarantine"},
    StateNames{"held", "On hold", "on hold"},
    StateNames{"released", "Released", "released"},
    StateNames{"rejected", "Rejected", "rejected"},
    StateNames{"used_up", "Used up", "used up"},
};

struct AnswerNames {
    std::string_view key;
    std::string_view name;
};
constexpr std::array answers{
    AnswerNames{"not_looked_at", "Not looked at"},
    AnswerNames{"yes", "Yes"},
    AnswerNames{"no", "No"},
};

/// Older flour is a year typed wrong (an assumption: no flour is kept half as long).
constexpr Days longest_age{5 * 366};

void read_days(const LotDraft& draft, const IntakeContext& context, DraftReader& reader, Lot& lot) {
    const auto is_too_long_ago = [&](Day day) { return context.today - day > longest_age; };
    const auto delivered = reader.day("Delivered on", draft.delivered_on);
    lot.delivered_on = delivered.value_or(context.today);
    if (lot.delivered_on > context.today) {
        reader.refuse(
            "Delivered on",
            fmt::format("{} was read, which is after today, {}", iso(lot.delivered_on), iso(context.today)),
            "Log the delivery on the day it comes");
    }
    if (is_too_long_ago(lot.delivered_on))
        reader.refuse("Delivered on", fmt::format("{} was read, which is years ago", iso(lot.delivered_on)),
                      "Check the year");
    lot.milled_on = reader.day("Milled on", draft.milled_on);
    if (lot.milled_on && *lot.milled_on > lot.delivered_on) {
        reader.refuse("Milled on",
                      fmt::format("{} was read, which is after the delivery on {}", iso(*lot.milled_on),
                                  iso(lot.delivered_on)),
                      "See the label for the day of milling, or leave it empty if nobody knows");
    }
    if (lot.milled_on && is_too_long_ago(*lot.milled_on))
        reader.refuse("Milled on", fmt::format("{} was read, which is years ago", iso(*lot.milled_on)),
                      "Check the year");
    lot.best_before = reader.day("Best before", draft.best_before);
    if (lot.best_before && lot.milled_on && *lot.best_before <= *lot.milled_on) {
        reader.refuse("Best before",
                      fmt::format("{} was read, which is not after the milling", iso(*lot.best_before)),
                      "See the label");
    }
    lot.certified_on = reader.day("Certificate date", draft.certified_on);
    if (lot.certified_on && *lot.certified_on > context.today) {
        reader.refuse(
            "Certificate date",
            fmt::format("{} was read, which is after today, {}", iso(*lot.certified_on), iso(context.today)),
            "See the certificate");
    }
}

/// "86 °F" is read as such whatever the house reads; a bare figure is in the house's unit.
std::optional<Celsius> read_temperature(const LotDraft& draft, const IntakeContext& context,
                                        DraftReader& reader) {
    constexpr Celsius coldest{-40};
    constexpr Celsius hottest{60};
    std::string_view typed = trimmed(draft.delivered_c);
    HouseUnits units = context.units;
    for (const std::string_view unit : {"°C", "°F"})
        if (typed.ends_with(unit)) {
            typed.remove_suffix(unit.size());
            units = HouseUnits("kg", unit);
        }
    return units.read_temperature("Flour temperature", trimmed(typed), coldest, hottest, reader.refusals);
}

/// Every doubt at its field, and the reason asked for as one more, so that a form has a place for it. What is
/// refused at a field already is mended first.
void ask_why(const LotDraft& draft, const Lot& lot, const IntakeContext& context, DraftReader& reader) {
    if (!trimmed(draft.accept_reason).empty())
        return;
    Refusals doubts = what_stands_against(lot, context);
    std::erase_if(doubts, [&](const Refusal& doubt) {
        return std::any_of(reader.refusals.begin(), reader.refusals.end(),
                           [&](const Refusal& refusal) { return refusal.field == doubt.field; });
    });
    if (doubts.empty())
        return;
    append(reader.refusals, doubts);
    reader.refuse(accept_field, "is empty", "Say it in a few words, or send the flour back");
}

void read_mill_addition(const AdditionDraft& addition, DraftReader& reader, Lot& lot) {
    const std::string_view typed = trimmed(addition.substance);
    if (typed.empty()) {
        if (!trimmed(addition.ppm).empty())
            reader.refuse("Oxidant added by the mill", "has a dose but no substance", "Choose the substance");
        return;
    }
    std::optional<Substance> substance;
    for (const Substance s : all_substances())
        if (typed == key_of(s) || typed == name_of(s))
            substance = s;
    if (!substance) {
        reader.refuse("Oxidant added by the mill", fmt::format("\"{}\" is not known", excerpt(typed)),
                      "Choose one from the list");
        return;
    }
    const bool stands_twice =
        std::any_of(lot.mill_additions.begin(), lot.mill_additions.end(),
                    [&](const MillAddition& earlier) { return earlier.substance == *substance; });
    if (stands_twice) {
        reader.refuse("Oxidant added by the mill", fmt::format("{} stands twice", name_of(*substance)),
                      "Enter it once, with the whole dose");
        return;
    }
    // 1,000 mg/kg is above every legal dose: more is a unit mistaken by ten or a thousand.
    const double dose = reader.required_number("Dose added by the mill", addition.ppm, {0.1, 1000, "mg/kg"});
    lot.mill_additions.push_back({*substance, OxidantPpm{dose}});
}

/// A supplier's lot number is one line that fits on a label; longer, it is text pasted into the wrong field.
std::string read_code(const LotDraft& draft, DraftReader& reader) {
    constexpr std::size_t longest_code = 80;
    std::string code(trimmed(draft.code));
    if (code.empty())
        reader.refuse("Lot number", "is empty", "Read it from the label");
    const bool has_control =
        std::any_of(code.begin(), code.end(), [](unsigned char c) { return c < 0x20 || c == 0x7F; });
    if (code.size() > longest_code || has_control)
        reader.refuse("Lot number",
                      fmt::format("\"{}\" was read; one line of up to {} characters is expected",
                                  excerpt(code), longest_code),
                      "Read it from the label");
    return code;
}

} // namespace

std::string_view key_of(DoorAnswer answer) { return answers[static_cast<std::size_t>(answer)].key; }
std::string_view name_of(DoorAnswer answer) { return answers[static_cast<std::size_t>(answer)].name; }

std::optional<DoorAnswer> door_answer_from_key(std::string_view key) {
    for (std::size_t i = 0; i < answers.size(); ++i)
        if (answers[i].key == key)
            return static_cast<DoorAnswer>(i);
    return {};
}

std::string_view key_of(LotState state) { return states[static_cast<std::size_t>(state)].key; }
std::string_view name_of(LotState state) { return states[static_cast<std::size_t>(state)].name; }
std::string_view in_words(LotState state) { return states[static_cast<std::size_t>(state)].words; }
std::optional<LotState> lot_state_from_key(std::string_view key) {
    for (std::size_t i = 0; i < states.size(); ++i)
        if (states[i].key == key)
            return static_cast<LotState>(i);
    return {};
}

FigureDraft& LotDraft::figure(Property property) { return figure_of(figures, property); }

Result<Lot> accept(const LotDraft& draft, const IntakeContext& context) {
    DraftReader reader;
    Lot lot;
    lot.code = read_code(draft, reader);
    lot.mill = reader.known("Mill", draft.mill, context.mills);
    lot.flour = reader.known("Flour", draft.flour, context.flours);
    lot.received_into = reader.known("Place", draft.place, context.places);
    lot.delivery_note = trimmed(draft.delivery_note);
    read_days(draft, context, reader, lot);
    lot.received =
        to_grams(Kilograms{reader.required_number("Weight", draft.mass_kg, {0.1, 1'000'000, "kg"})});
    lot.bag =
        to_grams(Kilograms{reader.number("Weight of a bag", draft.bag_kg, {0.1, 2'000, "kg"}).value_or(0)});
    if (lot.bag > lot.received && lot.received > Grams{0})
        reader.refuse("Weight of a bag", "is more than the whole lot", "Check both weights");
    const auto price = reader.number("Price per tonne", draft.price_per_tonne, {0, 100'000, "per tonne"});
    lot.price_per_tonne_minor = std::llround(price.value_or(0) * 100);
    lot.delivered_at = read_temperature(draft, context, reader);
    lot.certificate = read_figures(draft.figures, ZeroFigures::are_taken, reader);
    read_mill_addition({draft.mill_oxidant, draft.mill_oxidant_ppm}, reader, lot);
    for (const auto& addition : draft.further_additions)
        read_mill_addition(addition, reader, lot);
    read_pallets(draft.pallets, reader.refusals); // kept with the delivery
    ask_why(draft, lot, context, reader);
    if (!reader.refusals.empty())
        return reader.refusals;
    return lot;
}

std::optional<Day> last_day(const Lot& lot) {
    return lot.extension ? std::optional(lot.extension->until) : lot.best_before;
}

bool may_become(LotState from, LotState to) {
    using enum LotState;
    switch (from) {
    case awaiting_judgement:
        return to == held || to == released || to == rejected;
    case held:
        return to == released || to == rejected;
    case released:
        return to == held || to == rejected || to == used_up;
    case rejected:
        return to == held;
    case used_up:
        return to == released;
    }
    return false;
}

Result<Lot> with_state(Lot lot, LotState to, std::string reason, std::string who, Instant at) {
    if (!may_become(lot.state, to)) {
        return Refusal{"Lot " + lot.code,
                       fmt::format("is {} and cannot become {}", in_words(lot.state), in_words(to)),
                       lot.state == LotState::rejected ? "Hold it first, with the reason" : ""};
    }
    const bool needs_reason = to == LotState::held || to == LotState::rejected ||
                              (to == LotState::released && lot.state == LotState::held);
    reason = trimmed(reason);
    if (needs_reason && reason.empty())
        return Refusal{"Reason", "is empty", "Say why, in a few words"};
    if (to == LotState::held || to == LotState::rejected)
        lot.concession.reset();
    lot.state = to;
    lot.state_reason = std::move(reason);
    lot.state_by = std::move(who);
    lot.state_at = at;
    return lot;
}

Result<Lot> with_extension(Lot lot, std::string_view until, std::string_view reason, std::string who,
                           Day today) {
    DraftReader reader;
    const auto day = reader.day("Until", until);
    if (trimmed(until).empty())
        reader.refuse("Until", "is empty; a day is expected", "Say the last day on which it may be used");
    if (!lot.best_before)
        reader.refuse("Lot " + lot.code, "has no best-before day printed", "There is nothing to extend");
    if (day && lot.best_before && *day <= *lot.best_before) {
        reader.refuse("Until",
                      fmt::format("{} was read, which is not after the best-before day printed, {}",
                                  iso(*day), iso(*lot.best_before)),
                      "Enter a later day, or leave the one printed");
    } else if (day && *day < today) {
        reader.refuse("Until", fmt::format("{} was read, which is over: today is {}", iso(*day), iso(today)),
                      "Enter today or a later day");
    }
    if (trimmed(reason).empty())
        reader.refuse("Reason", "is empty", "Say why, in a few words");
    if (!reader.refusals.empty())
        return reader.refusals;
    lot.extension = BestBeforeExtension{*day, std::string(trimmed(reason)), std::move(who)};
    return lot;
}

} // namespace mellowbin
