#include "ui/views/intake/pallets.h"

#include "core/decimal.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/common/words.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

bool is_the_same(const PalletDraft& one, const PalletDraft& other) {
    const auto sscc = sscc_digits(one.sscc);
    return !sscc.empty() && sscc == sscc_digits(other.sscc);
}

std::optional<double> number_in(std::string_view text) {
    const auto read = read_decimal("", text);
    return read ? *read : std::nullopt;
}

/// Of all pallets; nothing where one of them has none.
std::optional<double> weight_of(const std::vector<PalletDraft>& pallets) {
    double sum = 0;
    for (const auto& pallet : pallets) {
        const auto kg = number_in(pallet.kg);
        if (!kg)
            return {};
        sum += *kg;
    }
    return sum;
}

/// The lot weighs what its pallets weigh, so far.
bool is_weight_of_pallets(const LotDraft& draft) {
    const auto typed = number_in(draft.mass_kg);
    const auto pallets = weight_of(draft.pallets);
    constexpr double a_gram = 0.001;
    return draft.mass_kg.empty() ? draft.pallets.empty()
                                 : typed && pallets && std::abs(*typed - *pallets) < a_gram;
}

/// How the lot's weight followed; what was typed as the whole lot's weight stays.
std::string add_weight(DeliveryLine& line, const std::string& kg, bool was_of_pallets) {
    const auto added = number_in(kg);
    if (!added)
        return {};
    if (!was_of_pallets)
        return ", the weight stays as it is";
    const double before = number_in(line.draft.mass_kg).value_or(0);
    line.draft.mass_kg = as_typed(before + *added);
    line.change("Weight");
    line.leave("Weight");
    return before > 0 ? fmt::format(", {} kg added: {} kg", kilograms(*added), kilograms(before + *added))
                      : fmt::format(", {} kg", kilograms(*added));
}

bool is_any_refused(const LotForm& form) {
    for (std::size_t i = 0; i < form.line.draft.pallets.size(); ++i)
        if (is_refused(form.line.refusals, pallet_field(i)) ||
            is_refused(form.line.refusals, pallet_weight_field(i)))
            return true;
    return false;
}

void follow(DeliveryLine& line, std::string_view field, const ui::Edited& edited) {
    if (edited.changed)
        line.change(field);
    if (edited.left)
        line.leave(field);
}

/// True when it is to go.
bool pallet_row(LotForm& form, std::size_t i) {
    auto& pallet = form.line.draft.pallets[i];
    const auto field = pallet_field(i), weight = pallet_weight_field(i);
    bool goes = false;
    ui::form_row({.label = field, .refusals = &form.line.refusals}, [&] {
        follow(form.line, field,
               ui::text_field({.label = field,
                               .hint = "SSCC, 18 digits",
                               .refusals = &form.line.refusals,
                               .width = 13.5_em,
                               .label_place = ui::LabelPlace::hidden},
                              pallet.sscc));
    });
    ui::form_row({.label = "", .field = weight, .refusals = &form.line.refusals}, [&] {
        ui::flow([&] {
            follow(form.line, weight,
                   ui::number_field({.label = weight,
                                     .unit = "kg",
                                     .refusals = &form.line.refusals,
                                     .width = 5_em,
                                     .label_place = ui::LabelPlace::hidden},
                                    pallet.kg));
            goes = ui::button("Off", {.kind = ui::ButtonKind::quiet});
        });
    });
    return goes;
}

} // namespace

std::int64_t line_with_pallet(const Delivery& delivery, const LotDraft& label) {
    for (const auto& wanted : label.pallets)
        for (const auto& line : delivery.lines())
            if (std::any_of(line.draft.pallets.begin(), line.draft.pallets.end(),
                            [&](const PalletDraft& one) { return is_the_same(one, wanted); }))
                return line.number;
    return 0;
}

ScannedPallet take_pallet(Delivery& delivery, const LotDraft& label) {
    if (label.pallets.empty())
        return {};
    auto& line = delivery.at_hand();
    ScannedPallet scanned;
    for (const auto& pallet : label.pallets) {
        // The first pallet's weight is in the lot's already, which the label filled.
        const bool has_it =
            line.draft.pallets.empty() && !pallet.kg.empty() && line.draft.mass_kg == pallet.kg;
        const bool was_of_pallets = is_weight_of_pallets(line.draft);
        line.draft.pallets.push_back(pallet);
        line.is_checked = false;
        scanned.words += fmt::format("; {} pallet of the lot", ordinal(line.draft.pallets.size()));
        if (!has_it)
            scanned.words += add_weight(line, pallet.kg, was_of_pallets);
    }
    return scanned;
}

void make_room(Delivery& delivery, const LotDraft& label) {
    const auto& lines = delivery.lines();
    const auto known = std::find_if(lines.begin(), lines.end(), [&](const auto& line) {
        return !label.code.empty() && line.draft.code == label.code;
    });
    auto& line = known == lines.end() ? delivery.at_hand() : *delivery.find(known->number);
    if (!label.milled_on.empty() && line.expected.contains("Milled on") &&
        line.draft.milled_on != label.milled_on) {
        line.draft.milled_on.clear();
        line.change("Milled on");
    }
}

std::size_t pallets_of(const Delivery& delivery) {
    std::size_t count = 0;
    for (const auto& line : delivery.lines())
        count += line.draft.pallets.size();
    return count;
}

std::string pallets_words(const LotDraft& draft) {
    return draft.pallets.empty() ? "Pallets" : counted(draft.pallets.size(), "pallet", "pallets");
}

void pallet_rows(LotForm& form, LotFolds& folds) {
    if (is_any_refused(form))
        folds.shows_pallets = true;
    if (!folds.shows_pallets)
        return;
    auto& pallets = form.line.draft.pallets;
    std::optional<std::size_t> off;
    for (std::size_t i = 0; i < pallets.size(); ++i)
        ui::scope(static_cast<std::int64_t>(i) + 100, [&] {
            if (pallet_row(form, i))
                off = i;
        });
    if (off) {
        pallets.erase(pallets.begin() + static_cast<std::ptrdiff_t>(*off));
        form.line.answered.clear(); // their places are others now
        form.line.is_checked = false;
    }
    if (ui::button("Add a pallet", {.kind = ui::ButtonKind::quiet}))
        pallets.emplace_back();
}

} // namespace mellowbin::views
