#pragma once

#include "core/id.h"
#include "dough/taught_state.h"
#include "dough/temperature.h"

#include <memory>
#include <optional>

namespace mellowbin::dough {

/// A batch whose dough was measured.
struct MixedDough {
    DoughHeat heat; ///< its dough temperature is the one measured; mixing_kj_per_kg is not read
    Celsius water_temperature;
    Kilograms ice; ///< of the water in `heat`, which counts it in
    Celsius ice_temperature{0};
};

/// Net heat of mixing into a kg of dough that a measured batch tells, kJ/kg: the heat balance read the other
/// way round, with the ice melted. May be below 0 where something was written down wrongly.
double mixing_heat_of(const MixedDough& batch);

/// What mixing is believed to bring into the next dough.
struct MixingHeat {
    double kj_per_kg = 0;
    double sd = 0;         ///< kJ/kg, of the mean
    int batches = 0;       ///< of this product on this mixer; 0: other products stand for it
    double reading_sd = 0; ///< kJ/kg, of what the next dough will tell by the line's own thermometer
};

/// Heat of mixing by mixer, product and size of the batch: a mean of the mixer that may drift from batch to
/// batch (flour whose temperature is guessed, the room), a difference of the product on it, a slope on the
/// logarithm of the dough's mass; each normal. The scatter of a mixer's batches is learned from them. Spreads
/// from the literature table. Whatever a thermometer, a meter or a guess is off by and stays off by is part
/// of the mean: the doughs come out right by that thermometer, not by another one.
class MixingBelief {
public:
    MixingBelief();
    /// As state() gave it, to the last bit; the state is whole.
    explicit MixingBelief(const MixingState& state);
    ~MixingBelief();
    MixingBelief(const MixingBelief&);
    MixingBelief& operator=(const MixingBelief&);
    MixingBelief(MixingBelief&&) noexcept;
    MixingBelief& operator=(MixingBelief&&) noexcept;

    /// False, and passed over, where the figure cannot be of mixing (below 0, above 150 kJ/kg) or lies more
    /// than four standard deviations from what the mixer did before. The third on end that lies so far away
    /// is believed: the mixer has changed, and its mean is open again. `dough` above 0.
    bool observe(LineId mixer, ProductId product, Kilograms dough, double kj_per_kg);
    [[nodiscard]] MixingState state() const;
    /// Nothing before the mixer's first batch.
    [[nodiscard]] std::optional<MixingHeat> predict(LineId mixer, ProductId product, Kilograms dough) const;

private:
    struct Filter;
    std::unique_ptr<Filter> filter_;
};

} // namespace mellowbin::dough
