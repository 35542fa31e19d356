#pragma once

#include "core/delivery.h"
#include "core/plant_draft.h"
#include "ui/views/common/keep.h"

#include <array>
#include <map>
#include <string>
#include <string_view>

/// Drafts that more than one screen types, as texts and back.
namespace mellowbin::views {

inline void keep(auto& k, Kind<AdditionDraft> auto& draft) {
    auto& [substance, ppm] = draft;
    k("substance", substance);
    k("ppm", ppm);
}

inline void keep(auto& k, Kind<PalletDraft> auto& draft) {
    auto& [sscc, kg] = draft;
    k("sscc", sscc);
    k("kg", kg);
}

inline void keep(auto& k, Kind<DeliveryDraft> auto& draft) {
    auto& [order, expected, on_note, weighed, remark, weight_reason] = draft;
    k("order", order);
    k("expected", expected);
    k("on_note", on_note);
    k("weighed", weighed);
    k("remark", remark);
    k("weight_reason", weight_reason);
}

inline void keep(auto& k, Kind<LotDraft> auto& draft) {
    auto& [code, mill, flour, delivery_note, milled_on, delivered_on, best_before, mass_kg, bag_kg,
           price_per_tonne, place, figures, mill_oxidant, mill_oxidant_ppm, further_additions, certified_on,
           delivered_c, accept_reason, certificate_source, certificate_place, pallets] = draft;
    k("code", code);
    k("mill", mill);
    k("flour", flour);
    k("delivery_note", delivery_note);
    k("milled_on", milled_on);
    k("delivered_on", delivered_on);
    k("best_before", best_before);
    k("mass_kg", mass_kg);
    k("bag_kg", bag_kg);
    k("price_per_tonne", price_per_tonne);
    k("place", place);
    keep_figures(k, figures);
    k("mill_oxidant", mill_oxidant);
    k("mill_oxidant_ppm", mill_oxidant_ppm);
    k("further_additions", further_additions);
    k("certified_on", certified_on);
    k("delivered_c", delivered_c);
    k("accept_reason", accept_reason);
    k("certificate_source", certificate_source);
    k("certificate_place", certificate_place);
    k("pallets", pallets);
}

inline void keep(auto& k, Kind<IngredientDraft> auto& draft) {
    auto& [name, percent, water, temperature] = draft;
    k("name", name);
    k("percent", percent);
    k("water", water);
    k("temperature", temperature);
}

inline void keep(auto& k, Kind<WindowDraft> auto& draft) {
    auto& [property, low, high, method] = draft;
    k("property", property);
    k("low", low);
    k("high", high);
    k("method", method);
}

inline void keep(auto& k, Kind<ClimateStepDraft> auto& draft) {
    auto& [from, temperature] = draft;
    k("from", from);
    k("temperature", temperature);
}

inline constexpr std::array<std::string_view, 5> plant_kind_words{"mill", "flour", "place", "line",
                                                                  "product"};

inline void keep(auto& k, Kind<PlantRef> auto& ref) {
    auto& [kind, number] = ref;
    keep_word(k, "kind", kind, plant_kind_words);
    k("number", number);
}

inline void keep(auto& k, Kind<PlantDraft> auto& draft) {
    auto& [kind, texts, windows, second_windows, climate, ingredients] = draft;
    keep_word(k, "kind", kind, plant_kind_words);
    k.within("texts", [&, &record_kind = kind, &by_key = texts] {
        for (const auto& field : plant_fields(record_kind))
            if constexpr (std::remove_reference_t<decltype(k)>::writes)
                k(field.key, draft.text(field.key));
            else
                k(field.key, by_key[std::string(field.key)]);
    });
    k("windows", windows);
    k("second_windows", second_windows);
    k("climate", climate);
    k("ingredients", ingredients);
}

/// By key; also a text that was emptied is typed.
template <class Key, class Typed, class Words>
void keep_all(KeptWriter& k, std::string_view name, const std::map<Key, Typed>& all, Words words) {
    k.within(name, [&] {
        for (const auto& one : all) {
            k.begun(words(one.first));
            k.within(key_words(one.first), [&] {
                k("is_typed", true);
                k("as", one.second);
            });
        }
    });
}

/// What was typed since stays.
template <class Key, class Typed>
void take_up_all(KeptReader& k, std::string_view name, std::map<Key, Typed>& all) {
    const auto names = k.names_in(name);
    k.within(name, [&] {
        for (const auto& words : names) {
            Key key;
            if (!read_key(words, key) || all.contains(key))
                continue;
            k.within(words, [&] { k("as", all[key]); });
        }
    });
}

} // namespace mellowbin::views
