#include "core/lot.h"

#include "core/decimal.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin {
namespace {

struct StateNames {
    std::string_view key;
    std::string_view name;
};
constexpr std::array states{
    StateNames{"awaiting_judgement", "Awaiting judgement"},
    StateNames{"held", "Held"},
    StateNames{"released", "Released"},
    StateNames{"rejected", "Rejected"},
    StateNames{"used_up", "Used up"},
};

/// Collects reasons while a draft is read; gives back a stand-in where a field is refused.
class DraftReader {
public:
    std::optional<double> number(std::string_view field, std::string_view text, Bounds bounds) {
        return keep(read_decimal_within(field, text, bounds));
    }
    double required_number(std::string_view field, std::string_view text, Bounds bounds) {
        auto read = read_required_decimal(field, text, bounds);
        if (read)
            return *read;
        append(refusals, read.refusals());
        return 0;
    }
    std::optional<Day> day(std::string_view field, std::string_view text) {
        return keep(read_day(field, text));
    }

    template <class Record>
    auto known(std::string_view field, std::string_view typed, std::span<const Record> records) {
        const std::string_view name = trimmed(typed);
        const auto record =
            std::find_if(records.begin(), records.end(), [&](const Record& r) { return r.name == name; });
        if (record != records.end())
            return record->id;
        std::string names;
        for (const auto& r : records)
            names += (names.empty() ? "" : ", ") + r.name;
        refuse(field, name.empty() ? "is empty" : fmt::format("\"{}\" is not known", excerpt(name)),
               names.empty() ? "The book has none yet: add it first" : "Choose one of: " + names);
        return decltype(record->id){};
    }
    void refuse(std::string_view field, std::string what, std::string remedy) {
        refusals.push_back({std::string(field), std::move(what), std::move(remedy)});
    }

    Refusals refusals;

private:
    template <class T> std::optional<T> keep(Result<std::optional<T>> read) {
        if (read)
            return *read;
        append(refusals, read.refusals());
        return {};
    }
};

/// The basis of a figure that was read; nothing where it is refused.
std::optional<Basis> read_stated_basis(const FigureDraft& figure, double value, DraftReader& reader) {
    const auto& kind = traits(figure.property);
    const auto basis = read_basis(kind.name, figure.basis);
    if (!basis) {
        append(reader.refusals, basis.refusals());
        return {};
    }
    if (kind.has_basis && !basis->is_stated()) {
        reader.refuse(kind.name, fmt::format("{} {} was read without its moisture basis", value, kind.unit),
                      "Say whether it is as is, at 14 % moisture or on dry matter");
        return {};
    }
    if (figure.property == Property::moisture && basis->is_stated() && !basis->is_as_is()) {
        reader.refuse(kind.name,
                      fmt::format("the basis \"{}\" was read; as is is expected", in_words(*basis)),
                      "Enter the water as a share of the flour as it lies there");
        return {};
    }
    return kind.has_basis ? *basis : Basis{};
}

void read_figure(const FigureDraft& figure, DraftReader& reader, Certificate& certificate) {
    const auto& kind = traits(figure.property);
    const std::string unit(kind.unit);
    const auto value = reader.number(kind.name, figure.value, {kind.lowest, kind.highest, unit.c_str()});
    if (!value)
        return;
    const auto basis = read_stated_basis(figure, *value, reader);
    // 5.7 for wheat flour, 6.25 on nutrition labels; the bounds hold any factor in use for cereals.
    const auto factor = figure.property == Property::protein
                            ? reader.number("Nitrogen factor", figure.nitrogen_factor, {5, 7, ""})
                            : std::nullopt;
    if (!basis)
        return;
    if (certificate.find(figure.property)) {
        reader.refuse(kind.name, fmt::format("stands twice; the second figure is {} {}", *value, kind.unit),
                      "Keep one of the two");
        return;
    }
    certificate.set({figure.property, *value, *basis, std::string(trimmed(figure.method)),
                     factor.value_or(wheat_nitrogen_factor)});
}

/// A moisture that was typed and refused is one reason, not one for each figure that needs it.
void check_bases_can_be_restated(const LotDraft& draft, const Certificate& certificate, DraftReader& reader) {
    const bool moisture_was_typed =
        std::any_of(draft.figures.begin(), draft.figures.end(), [](const FigureDraft& figure) {
            return figure.property == Property::moisture && !trimmed(figure.value).empty();
        });
    if (moisture_was_typed && !certificate.moisture())
        return;
    for (const auto& value : certificate.values()) {
        const auto restated = value_at_14(certificate, value.property);
        if (!restated)
            append(reader.refusals, restated.refusals());
    }
}

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

std::string_view key_of(LotState state) { return states[static_cast<std::size_t>(state)].key; }
std::string_view name_of(LotState state) { return states[static_cast<std::size_t>(state)].name; }
std::optional<LotState> lot_state_from_key(std::string_view key) {
    for (std::size_t i = 0; i < states.size(); ++i)
        if (states[i].key == key)
            return static_cast<LotState>(i);
    return {};
}

FigureDraft& LotDraft::figure(Property property) {
    const auto at =
        std::find_if(figures.begin(), figures.end(), [&](const auto& f) { return f.property == property; });
    if (at != figures.end())
        return *at;
    return figures.emplace_back(FigureDraft{property, "", "", "", ""});
}

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
    for (const auto& figure : draft.figures)
        read_figure(figure, reader, lot.certificate);
    check_bases_can_be_restated(draft, lot.certificate, reader);
    read_mill_addition({draft.mill_oxidant, draft.mill_oxidant_ppm}, reader, lot);
    for (const auto& addition : draft.further_additions)
        read_mill_addition(addition, reader, lot);
    if (!reader.refusals.empty())
        return reader.refusals;
    return lot;
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
                       fmt::format("is \"{}\" and cannot become \"{}\"", name_of(lot.state), name_of(to)),
                       lot.state == LotState::rejected ? "Hold it first, with the reason" : ""};
    }
    const bool needs_reason = to == LotState::held || to == LotState::rejected ||
                              (to == LotState::released && lot.state == LotState::held);
    reason = trimmed(reason);
    if (needs_reason && reason.empty())
        return Refusal{"Reason", "is empty", "Say why, in a few words"};
    lot.state = to;
    lot.state_reason = std::move(reason);
    lot.state_by = std::move(who);
    lot.state_at = at;
    return lot;
}

} // namespace mellowbin
