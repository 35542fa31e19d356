#include "exchange/certificate_lots.h"

#include "core/decimal.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace mellowbin::exchange {
namespace {

std::string LotDraft::*field_for(LotFact fact) {
    switch (fact) {
    case LotFact::lot_number:
        return &LotDraft::code;
    case LotFact::mill:
        return &LotDraft::mill;
    case LotFact::flour:
        return &LotDraft::flour;
    case LotFact::place:
        return &LotDraft::place;
    case LotFact::delivery_note:
        return &LotDraft::delivery_note;
    case LotFact::milled_on:
        return &LotDraft::milled_on;
    case LotFact::delivered_on:
        return &LotDraft::delivered_on;
    case LotFact::best_before:
        return &LotDraft::best_before;
    case LotFact::certificate_date:
        return &LotDraft::certified_on;
    case LotFact::weight:
        return &LotDraft::mass_kg;
    case LotFact::bag_weight:
        return &LotDraft::bag_kg;
    case LotFact::flour_temperature:
        return &LotDraft::delivered_c;
    case LotFact::price_per_tonne:
        return &LotDraft::price_per_tonne;
    }
    return &LotDraft::code;
}

bool is_zero(std::string_view text) {
    const auto number = read_decimal("", text);
    return number && number->value_or(0) == 0;
}

/// Puts a value into the draft's field, figure or addition.
void put(const UnderstoodValue& value, LotDraft& draft) {
    const auto meaning = meaning_from_key(value.means);
    if (!meaning)
        return;
    if (meaning->fact) {
        const bool is_warm = *meaning->fact == LotFact::flour_temperature && !value.unit.empty();
        draft.*field_for(*meaning->fact) = is_warm ? value.value + " " + value.unit : value.value;
    } else if (value.value.empty()) {
        return;
    } else if (meaning->property) {
        draft.figures.push_back(
            {*meaning->property, value.value, value.basis, value.method, value.nitrogen_factor});
    } else if (!is_zero(value.value)) {
        // The one addition that a form has a field for goes there.
        const bool is_first = draft.mill_oxidant.empty();
        if (is_first) {
            draft.mill_oxidant = key_of(*meaning->substance);
            draft.mill_oxidant_ppm = value.value;
        } else {
            draft.further_additions.push_back({std::string(key_of(*meaning->substance)), value.value});
        }
    }
}

LotDraft begun(const CertificateDefaults& defaults) {
    LotDraft draft;
    draft.mill = defaults.mill;
    draft.flour = defaults.flour;
    draft.place = defaults.place;
    draft.delivered_on = defaults.delivered_on;
    return draft;
}

/// The value of a fact that the lot has, its own or that of every lot.
using Facts = std::map<std::string, const UnderstoodValue*>;

void refuse_order(const Facts& facts, LotFact earlier, LotFact later, const char* remedy,
                  Refusals& refusals) {
    const auto first = facts.find(std::string(key_of(earlier)));
    const auto second = facts.find(std::string(key_of(later)));
    if (first == facts.end() || second == facts.end())
        return;
    const auto first_day = read_day("", first->second->value);
    const auto second_day = read_day("", second->second->value);
    if (!first_day || !second_day || !*first_day || !*second_day || **first_day <= **second_day)
        return;
    refusals.push_back(
        {field_of(*second->second),
         fmt::format("{} was read, which is before {} ({} at {})", second->second->value,
                     lower_case(first->second->name), first->second->value, first->second->where),
         remedy});
}

CertificateLot lot_of(std::size_t number, const std::vector<const KeptValue*>& own,
                      const std::vector<const KeptValue*>& of_all, const CertificateLayout& layout,
                      const PaperContext& paper) {
    CertificateLot lot{
        layout.lots[number].where, begun(paper.request.defaults), layout.lots[number].refusals, {}};
    Facts facts;
    std::set<std::string> asked;
    const auto has = [&](const KeptValue& shared) {
        return std::any_of(own.begin(), own.end(), [&](const KeptValue* value) {
            return value->value.means == shared.value.means && !value->value.source_text.empty();
        });
    };
    const auto take = [&](const KeptValue& kept) {
        put(kept.value, lot.draft);
        append(lot.refusals, kept.refusals);
        for (const auto& key : kept.value.questions)
            if (asked.insert(key).second)
                lot.questions.push_back(key);
        if (!kept.value.value.empty())
            facts.emplace(kept.value.means, &kept.value);
        if (lot.where.empty() && kept.value.means == key_of(LotFact::lot_number))
            lot.where = kept.value.where;
    };
    for (const auto* shared : of_all)
        if (!has(*shared))
            take(*shared);
    for (const auto* value : own)
        take(*value);
    const char* swapped = "Are the two days swapped? See the certificate";
    refuse_order(facts, LotFact::milled_on, LotFact::best_before, swapped, lot.refusals);
    refuse_order(facts, LotFact::milled_on, LotFact::certificate_date, swapped, lot.refusals);
    refuse_order(facts, LotFact::milled_on, LotFact::delivered_on, swapped, lot.refusals);
    if (lot.where.empty())
        lot.where = where(paper.sheets[layout.lots[number].sheet], layout.lots[number].row);
    return lot;
}

} // namespace

std::vector<CertificateLot> lots_of(const std::vector<KeptValue>& values, const CertificateLayout& layout,
                                    const PaperContext& paper) {
    std::vector<std::vector<const KeptValue*>> own(layout.lots.size());
    std::vector<const KeptValue*> of_all;
    for (const auto& value : values)
        (value.value.lot == every_lot ? of_all : own[value.value.lot]).push_back(&value);
    std::vector<CertificateLot> lots;
    lots.reserve(own.size());
    for (std::size_t i = 0; i < own.size(); ++i)
        lots.push_back(lot_of(i, own[i], of_all, layout, paper));
    return lots;
}

} // namespace mellowbin::exchange
