#include "core/lot.h"

#include "core/decimal.h"

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
    auto known(std::string_view field, std::string_view name, std::span<const Record> records) {
        const auto record =
            std::find_if(records.begin(), records.end(), [&](const Record& r) { return r.name == name; });
        if (record != records.end())
            return record->id;
        std::string names;
        for (const auto& r : records)
            names += (names.empty() ? "" : ", ") + r.name;
        refuse(field, name.empty() ? "is empty" : fmt::format("\"{}\" is not known", name),
               "Choose one of: " + names);
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

void read_figure(const FigureDraft& figure, DraftReader& reader, Certificate& certificate) {
    const auto& kind = traits(figure.property);
    const std::string unit(kind.unit);
    const auto value = reader.number(kind.name, figure.value, {kind.lowest, kind.highest, unit.c_str()});
    if (!value)
        return;
    const auto basis = read_basis(kind.name, figure.basis);
    if (!basis) {
        append(reader.refusals, basis.refusals());
        return;
    }
    if (kind.has_basis && !basis->is_stated()) {
        reader.refuse(kind.name,
                      fmt::format("{:g} {} was read without its moisture basis", *value, kind.unit),
                      "Say whether it is as is, at 14 % moisture or on dry matter");
        return;
    }
    certificate.set(
        {figure.property, *value, kind.has_basis ? *basis : Basis{}, figure.method, wheat_nitrogen_factor});
}

void check_bases_can_be_restated(const Certificate& certificate, DraftReader& reader) {
    for (const auto& value : certificate.values()) {
        const auto restated = value_at_14(certificate, value.property);
        if (!restated)
            append(reader.refusals, restated.refusals());
    }
}

void read_days(const LotDraft& draft, const IntakeContext& context, DraftReader& reader, Lot& lot) {
    const auto delivered = reader.day("Delivered on", draft.delivered_on);
    lot.delivered_on = delivered.value_or(context.today);
    if (lot.delivered_on > context.today) {
        reader.refuse(
            "Delivered on",
            fmt::format("{} was read, which is after today, {}", iso(lot.delivered_on), iso(context.today)),
            "Log the delivery on the day it comes");
    }
    lot.milled_on = reader.day("Milled on", draft.milled_on);
    if (lot.milled_on && *lot.milled_on > lot.delivered_on) {
        reader.refuse("Milled on",
                      fmt::format("{} was read, which is after the delivery on {}", iso(*lot.milled_on),
                                  iso(lot.delivered_on)),
                      "See the label for the day of milling, or leave it empty if nobody knows");
    }
    lot.best_before = reader.day("Best before", draft.best_before);
    if (lot.best_before && lot.milled_on && *lot.best_before <= *lot.milled_on) {
        reader.refuse("Best before",
                      fmt::format("{} was read, which is not after the milling", iso(*lot.best_before)),
                      "See the label");
    }
}

void read_mill_addition(const LotDraft& draft, DraftReader& reader, Lot& lot) {
    if (draft.mill_oxidant.empty()) {
        if (!draft.mill_oxidant_ppm.empty())
            reader.refuse("Oxidant added by the mill", "has a dose but no substance", "Choose the substance");
        return;
    }
    std::optional<Substance> substance;
    for (const Substance s : all_substances())
        if (draft.mill_oxidant == key_of(s) || draft.mill_oxidant == name_of(s))
            substance = s;
    if (!substance) {
        reader.refuse("Oxidant added by the mill", fmt::format("\"{}\" is not known", draft.mill_oxidant),
                      "Choose one from the list");
        return;
    }
    // 1,000 mg/kg is above every legal dose: more is a unit mistaken by ten or a thousand.
    const double dose =
        reader.required_number("Dose added by the mill", draft.mill_oxidant_ppm, {0.1, 1000, "mg/kg"});
    lot.mill_additions.push_back({*substance, OxidantPpm{dose}});
}

std::string trimmed(std::string text) {
    const auto first = text.find_first_not_of(" \t\r\n");
    if (first == std::string::npos)
        return {};
    return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
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
    return figures.emplace_back(FigureDraft{property, "", "", ""});
}

Result<Lot> accept(const LotDraft& draft, const IntakeContext& context) {
    DraftReader reader;
    Lot lot;
    lot.code = trimmed(draft.code);
    if (lot.code.empty())
        reader.refuse("Lot number", "is empty", "Read it from the label");
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
    check_bases_can_be_restated(lot.certificate, reader);
    read_mill_addition(draft, reader, lot);
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
    reason = trimmed(std::move(reason));
    if (needs_reason && reason.empty())
        return Refusal{"Reason", "is empty", "Say why, in a few words"};
    lot.state = to;
    lot.state_reason = std::move(reason);
    lot.state_by = std::move(who);
    lot.state_at = at;
    return lot;
}

} // namespace mellowbin
