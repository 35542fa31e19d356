#include "ui/models/plant.h"

#include "core/day.h"
#include "core/plant.h"
#include "support/iso.h"

#include <utility>

namespace mellowbin::test {
namespace {

template <class Record>
app::PlantRow row_of(PlantKind kind, const Record& record, PlantDraft draft, std::string words) {
    return {{kind, record.id.number()}, record.name, std::move(words),
            record.is_retired,          "",          std::move(draft)};
}

std::vector<Flour> flours() {
    return {{FlourId{1},
             "Strong white",
             FlourClass::white,
             {{Property::moisture, {}, 14.5, ""},
              {Property::protein, 11.8, 14.0, ""},
              {Property::starch_damage, 6.0, 9.0, "AACC 76-31"}}},
            {FlourId{2}, "Wholemeal", FlourClass::wholemeal, {}},
            {FlourId{3}, "Hearth", FlourClass::white, {{Property::falling_number, 240, 400, ""}}, true}};
}

Product pan_bread() {
    Product p;
    p.id = ProductId{1};
    p.name = "Pan bread";
    p.flour = FlourId{1};
    p.market = "CA";
    p.sold_as = SoldAs::prepacked_sliced;
    p.windows = {{Property::protein, 11.9, 13.2, ""}, {Property::falling_number, 250, 400, ""}};
    p.second_flour = SecondFlour{FlourId{2}, 0.15, {{Property::falling_number, 230, {}, ""}}};
    p.oxidant = Substance::ascorbic_acid;
    p.house_maximum = OxidantPpm{60};
    p.ingredients = {{"Salt", 1.9, 0, {}}, {"Whole egg", 12, 76.2, Celsius{4}}};
    p.enzyme = "maltogenic amylase";
    p.bread_erh = 95.5;
    return p;
}

Product hearth_loaf() {
    Product p;
    p.id = ProductId{2};
    p.name = "Hearth loaf";
    p.flour = FlourId{1};
    p.market = "EU";
    return p;
}

} // namespace

app::PlantModel a_plant() {
    app::PlantModel m;
    m.name = "Riverside Bakery";
    const auto list = [&](PlantKind kind) -> std::vector<app::PlantRow>& {
        return m.rows[static_cast<std::size_t>(kind)];
    };
    for (const auto& mill : {Mill{MillId{1}, "Harrow Mill"}, Mill{MillId{2}, "Kestrel Mill"},
                             Mill{MillId{3}, "Old Weir Mill", true}})
        list(PlantKind::mill).push_back(row_of(PlantKind::mill, mill, draft_of(mill), ""));
    const auto all = flours();
    list(PlantKind::flour)
        .push_back(row_of(PlantKind::flour, all[0], draft_of(all[0]), "White, 3 properties specified"));
    list(PlantKind::flour)
        .push_back(row_of(PlantKind::flour, all[1], draft_of(all[1]), "Wholemeal, no specification"));
    list(PlantKind::flour)
        .push_back(row_of(PlantKind::flour, all[2], draft_of(all[2]), "White, 1 property specified"));
    const Place bay{PlaceId{1},
                    "Bay 1",
                    PlaceKind::bay,
                    Air::breathable_bag,
                    Celsius{19},
                    RelativeHumidity{0.58},
                    {{day_from_iso("2026-06-01"), Celsius{23}}, {day_from_iso("2026-09-15"), Celsius{18}}}};
    const Place silo{PlaceId{2}, "Silo 1", PlaceKind::silo, Air::moved_silo, Celsius{20}, {}, {}};
    list(PlantKind::place)
        .push_back(row_of(PlantKind::place, bay, draft_of(bay), "Paper or woven bags, 19 °C"));
    list(PlantKind::place)
        .push_back(row_of(PlantKind::place, silo, draft_of(silo), "Silo, moved or blown, 20 °C"));
    Line line;
    line.id = LineId{1};
    line.name = "Line 1";
    line.friction_factor = CelsiusStep{24};
    list(PlantKind::line)
        .push_back(row_of(PlantKind::line, line, draft_of(line), "water from 2 °C, ice up to 50 %"));
    list(PlantKind::product)
        .push_back(row_of(PlantKind::product, pan_bread(), draft_of(pan_bread(), all),
                          "Strong white and Wholemeal, CA"));
    list(PlantKind::product)
        .push_back(
            row_of(PlantKind::product, hearth_loaf(), draft_of(hearth_loaf(), all), "Strong white, EU"));
    m.flours = {"Strong white", "Wholemeal"};
    m.markets = {"CA", "EU"};
    m.door_checks = {"Seal whole, or bags closed", "Bags dry and not torn",
                     "Free of insects and foreign smell", "Flour below [temperature]",
                     "Weight and lot number as on the note"};
    m.made = 1;
    return m;
}

} // namespace mellowbin::test
