#include "app/models/silos.h"

#include "app/book/station.h"
#include "app/plan/silos.h"
#include "core/blend.h"
#include "core/decimal.h"
#include "db/silo_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

constexpr int care_shown = 6;

std::string typed(const MixingZone& zone) {
    if (!zone.mass)
        return "all";
    if (*zone.mass == Grams{0})
        return "none";
    return fmt::format("{:g}", to_kilograms(*zone.mass).value());
}

SiloPart part_of(const Station& s, LotId id, Grams mass, Grams all, std::string certainty) {
    const Lot* lot = s.book.lot(id);
    const double kg = to_kilograms(mass).value();
    return {id, lot ? lot->code : "?", kg, all > Grams{0} ? kg / to_kilograms(all).value() * 100 : 0,
            std::move(certainty)};
}

/// Of lots whose certificates are here; the others' figures are not known, and then none of the draw is told.
void tell_blend(const Station& s, const std::vector<DrawnPart>& parts, SiloRow& row) {
    std::vector<BlendPart> blend;
    double maturity = 0;
    double mass = 0;
    for (const auto& part : parts) {
        const Lot* lot = s.book.lot(part.lot);
        if (!lot || s.book.is_aside(part.lot))
            return;
        const auto kg = to_kilograms(part.mass);
        blend.push_back({&lot->certificate, kg});
        maturity += kg.value() *
                    s.estimates.of(part.lot).maturity_at(1 - s.estimates.confidence(), s.today()).value();
        mass += kg.value();
    }
    if (mass <= 0)
        return;
    row.figures.push_back(
        {"Maturity", maturity / mass, 2, std::string(share_unit), "model, with the confidence set"});
    for (const Property property : {Property::protein, Property::absorption, Property::falling_number,
                                    Property::ash, Property::moisture}) {
        const auto value = blend_value(blend, property);
        if (!value)
            continue;
        const auto& kind = traits(property);
        row.figures.push_back({std::string(kind.name), value->value, kind.decimals, std::string(kind.unit),
                               value->is_estimate ? "estimate: ask for a blend test" : ""});
    }
}

std::string words_of(const PlaceCare& care) {
    return fmt::format("{} on {} by {}{}", key_of(care.kind), iso(care.day), care.by,
                       care.note.empty() ? "" : ": " + care.note);
}

} // namespace

std::vector<SiloRow> make_silos(const Station& s, Grams draw) {
    std::vector<SiloRow> rows;
    const auto lying = silo_layers(s.book);
    for (const auto& [id, facts] : s.book.silos) {
        const Place* place = s.book.place(id);
        if (!place)
            continue;
        SiloRow row;
        row.place = id;
        row.name = place->name;
        row.zone = in_words(facts.zone);
        row.zone_typed = typed(facts.zone);
        if (facts.capacity)
            row.capacity_kg = to_kilograms(*facts.capacity).value();
        if (const auto at = lying.find(id); at != lying.end()) {
            Grams all;
            for (const auto& layer : at->second)
                all += layer.mass;
            row.kg = to_kilograms(all).value();
            for (const auto& layer : at->second)
                row.layers.push_back(part_of(s, layer.lot, layer.mass, all, ""));
            const Grams drawn_mass = std::min(draw, all);
            row.draw_kg = to_kilograms(drawn_mass).value();
            if (const auto parts = drawn(at->second, facts.zone, drawn_mass); parts) {
                for (const auto& part : *parts)
                    row.draw.push_back(
                        part_of(s, part.lot, part.mass, drawn_mass, std::string(in_words(part.certainty))));
                tell_blend(s, *parts, row);
            }
        }
        for (const auto& care : SiloStore(*s.connection).care_of(id, care_shown))
            row.care.push_back(words_of(care));
        rows.push_back(std::move(row));
    }
    return rows;
}

} // namespace mellowbin::app
