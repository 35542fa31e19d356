#pragma once

#include "core/id.h"
#include "dough/caution.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

/// Whether a batch may be mixed: one verdict for every place that speaks of it.
namespace mellowbin::dough {

/// In rising order of strictness.
enum class MayMix {
    mix,          ///< nothing stands against it
    answer_first, ///< a person says why it is mixed all the same
    do_not_mix,   ///< nothing at the bowl lifts it
};
std::string_view key_of(MayMix may_mix);  ///< in files: "answer_first"
std::string_view name_of(MayMix may_mix); ///< on screen: "Answer first"

/// What can stand against a batch.
enum class MixReason {
    // do not mix
    no_card,
    lot_not_released,
    concession_does_not_hold, ///< for this product, or on this day
    law_forbids_flour,
    wrong_bag,
    best_before_passed,
    moisture_too_high,
    water_impossible,
    // answer first
    lot_past_best,
    lot_out_of_specification,
    mill_dose_unconfirmed,
    flour_short,
    bags_not_scanned,
    water_not_known,
    water_hot,
    water_rounded,
    dough_too_warm,
    oxidant_withheld,
    oxidant_not_known,
    preservative_withheld,
    typed_far_off, ///< what was typed of a batch, from what its card says
};

/// What holds for every reason of a kind.
struct MixReasonTraits {
    MixReason reason{};
    std::string_view key; ///< in files: "lot_past_best"
    MayMix may_mix{};
    std::string_view lifted_by; ///< what lifts it, and who may: a sentence
    std::string_view source;    ///< of the rule; never empty
};
std::span<const MixReasonTraits> all_mix_reasons();
const MixReasonTraits& traits(MixReason reason);

/// One thing that stands against a batch.
struct Against {
    MixReason reason{};
    CautionAt at{};        ///< where on the card it is about
    std::string words;     ///< with the figures: what is, what is asked for
    std::string lifted_by; ///< what lifts this one
    LotId lot{};           ///< that it is about; not known: it is about no single one
};

struct Verdict {
    std::vector<Against> against; ///< the strictest first

    [[nodiscard]] MayMix may_mix() const;
    [[nodiscard]] bool has(MixReason reason) const;
    /// A stop is about the lot: none of it is told as if it were to be weighed.
    [[nodiscard]] bool withholds(LotId lot) const;
};

/// Adds one, with its kind's words on what lifts it where none are given; keeps the order.
void object(Verdict& verdict, MixReason reason, CautionAt at, std::string words, std::string lifted_by = {},
            LotId lot = {});

} // namespace mellowbin::dough
