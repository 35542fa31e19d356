#include "fuzz/sound_lot.h"

#include "fuzz/target.h"

namespace mellowbin::fuzz {

void expect_sound(const Lot& lot, Day today) {
    expect(!lot.code.empty() && lot.received > Grams{0}, "a lot that is taken has a number and a weight");
    expect_text(lot.code);
    expect(lot.delivered_on <= today && (!lot.milled_on || *lot.milled_on <= lot.delivered_on),
           "a lot was milled before it came, and came by today");
    for (const auto& value : lot.certificate.values()) {
        const auto& kind = traits(value.property);
        expect(value.value >= kind.lowest && value.value <= kind.highest, "a result can be one of a flour");
        expect(!kind.has_basis || value.basis.is_stated(), "a result has its basis");
    }
    for (const auto& addition : lot.mill_additions)
        expect(addition.dose > OxidantPpm{0}, "what the mill added is more than nothing");
}

} // namespace mellowbin::fuzz
