#pragma once

#include "core/lot.h"

namespace mellowbin::testing {

/// A small plant and a lot that can be taken in: a test states only what matters to it.
struct SmallPlant {
    std::vector<Mill> mills{{MillId{1}, "Weir Mill"}, {MillId{2}, "Ridge Mill"}};
    std::vector<Flour> flours{{FlourId{1}, "Bread flour", FlourClass::white, {}},
                              {FlourId{2}, "Wholemeal flour", FlourClass::wholemeal, {}}};
    std::vector<Place> places{{PlaceId{1}, "Bay 1", PlaceKind::bay, Air::breathable_bag, Celsius{20}, {}, {}},
                              {PlaceId{2}, "Silo 2", PlaceKind::silo, Air::moved_silo, Celsius{20}, {}, {}}};
    Day today{date::year{2026} / 11 / 25};

    [[nodiscard]] IntakeContext context() const { return {today, mills, flours, places}; }
};

/// A lot of Weir Mill's bread flour, with a full certificate at 14 % moisture.
inline LotDraft good_draft() {
    LotDraft draft;
    draft.code = "W26-118";
    draft.mill = "Weir Mill";
    draft.flour = "Bread flour";
    draft.delivery_note = "DN 4711";
    draft.milled_on = "2026-11-16";
    draft.delivered_on = "2026-11-20";
    draft.best_before = "2027-11-16";
    draft.mass_kg = "5000";
    draft.bag_kg = "25";
    draft.price_per_tonne = "410.50";
    draft.place = "Bay 1";
    draft.figures = {
        {Property::moisture, "14.2", "", "", ""},
        {Property::protein, "12.4", "14 % moisture", "", ""},
        {Property::ash, "0.52", "14 % moisture", "", ""},
        {Property::falling_number, "320", "", "", ""},
        {Property::absorption, "61.5", "14 % moisture", "", ""},
    };
    return draft;
}

inline Lot good_lot() { return accept(good_draft(), SmallPlant{}.context()).value(); }

} // namespace mellowbin::testing
