#include "dough/verdict.h"

#include <algorithm>
#include <array>

namespace mellowbin::dough {
namespace {

using enum MayMix;

constexpr std::string_view practice = "common practice, no source";
constexpr std::string_view house_rule = "a rule of this program";

constexpr std::array table{
    MixReasonTraits{
        MixReason::no_card, "no_card", do_not_mix,
        "The planner gives the run what it lacks, or whoever keeps the plant's settings mends them",
        house_rule},
    MixReasonTraits{MixReason::lot_not_released, "lot_not_released", do_not_mix,
                    "Quality staff release the lot, or the planner gives the run another one", house_rule},
    MixReasonTraits{MixReason::concession_does_not_hold, "concession_does_not_hold", do_not_mix,
                    "Quality staff judge the lot anew, or the planner gives the run another one", house_rule},
    MixReasonTraits{MixReason::law_forbids_flour, "law_forbids_flour", do_not_mix,
                    "The planner gives the run another lot, or the product another market",
                    "the rows of law in Settings"},
    MixReasonTraits{MixReason::wrong_bag, "wrong_bag", do_not_mix,
                    "Scan a bag of each lot of this card, or have quality staff clear it by name and reason",
                    house_rule},
    MixReasonTraits{MixReason::best_before_passed, "best_before_passed", do_not_mix,
                    "Quality staff extend the day with a reason, or the planner gives the run another lot",
                    house_rule},
    MixReasonTraits{MixReason::moisture_too_high, "moisture_too_high", do_not_mix,
                    "Quality staff hold the lot and test it again; the planner gives the run another one",
                    "Codex Standard 152-1985, wheat flour: moisture at most 15.5 %"},
    MixReasonTraits{MixReason::water_impossible, "water_impossible", do_not_mix,
                    "Whoever keeps the plant's settings, the certificates and the formulas mends the cause",
                    house_rule},
    MixReasonTraits{MixReason::lot_past_best, "lot_past_best", answer_first,
                    "Say why it is used all the same, or have the planner give another lot",
                    "the aging estimate"},
    MixReasonTraits{MixReason::lot_out_of_specification, "lot_out_of_specification", answer_first,
                    "Say why it is used all the same, or have quality staff judge the lot again",
                    "the plant's specification of the flour"},
    MixReasonTraits{MixReason::mill_dose_unconfirmed, "mill_dose_unconfirmed", answer_first,
                    "Read the law's text and confirm the row in Settings, or say why it is used all the same",
                    "the rows of law in Settings"},
    MixReasonTraits{MixReason::flour_short, "flour_short", answer_first,
                    "Have the planner give the run more flour, or say what is mixed in its place",
                    house_rule},
    MixReasonTraits{MixReason::bags_not_scanned, "bags_not_scanned", answer_first,
                    "Scan a bag of each lot, or say why it cannot be scanned (the label is torn)",
                    "the plant's choice in Settings"},
    MixReasonTraits{MixReason::water_not_known, "water_not_known", answer_first,
                    "Enter what went in and say by whose word, or have the lot's certificate completed",
                    house_rule},
    MixReasonTraits{
        MixReason::water_hot, "water_hot", answer_first,
        "Say why, or keep hot water off the yeast: have the settings, the room and the flour seen to",
        practice},
    MixReasonTraits{MixReason::water_rounded, "water_rounded", answer_first,
                    "Say why, or measure the water by a finer scale", house_rule},
    MixReasonTraits{MixReason::dough_too_warm, "dough_too_warm", answer_first,
                    "Say why, or mix a smaller batch, shorter, with cooler flour", practice},
    MixReasonTraits{MixReason::oxidant_withheld, "oxidant_withheld", answer_first,
                    "Say why it is mixed without, or wait, blend or ferment longer",
                    "the rows of law in Settings"},
    MixReasonTraits{MixReason::oxidant_not_known, "oxidant_not_known", answer_first,
                    "Enter 0 and say why it is mixed without, or complete what is missing", house_rule},
    MixReasonTraits{MixReason::preservative_withheld, "preservative_withheld", answer_first,
                    "Say why it is mixed without, or have the row of law or the dose seen to",
                    "the rows of law in Settings"},
    MixReasonTraits{MixReason::typed_far_off, "typed_far_off", answer_first,
                    "Check the figure; if it really was so, say why", "the plant's distances in Settings"},
};

} // namespace

std::string_view key_of(MayMix may_mix) {
    static constexpr std::array<std::string_view, 3> keys{"mix", "answer_first", "do_not_mix"};
    return keys[static_cast<std::size_t>(may_mix)];
}

std::string_view name_of(MayMix may_mix) {
    static constexpr std::array<std::string_view, 3> names{"Mix", "Answer first", "Do not mix"};
    return names[static_cast<std::size_t>(may_mix)];
}

std::span<const MixReasonTraits> all_mix_reasons() { return table; }

const MixReasonTraits& traits(MixReason reason) { return table[static_cast<std::size_t>(reason)]; }

MayMix Verdict::may_mix() const { return against.empty() ? mix : traits(against.front().reason).may_mix; }

bool Verdict::has(MixReason reason) const {
    return std::any_of(against.begin(), against.end(),
                       [&](const Against& one) { return one.reason == reason; });
}

bool Verdict::withholds(LotId lot) const {
    return has(MixReason::law_forbids_flour) ||
           std::any_of(against.begin(), against.end(), [&](const Against& one) {
               return one.lot == lot && traits(one.reason).may_mix == do_not_mix;
           });
}

void object(Verdict& verdict, MixReason reason, CautionAt at, std::string words, std::string lifted_by,
            LotId lot) {
    if (lifted_by.empty())
        lifted_by = traits(reason).lifted_by;
    const auto is_milder = [&](const Against& one) {
        return traits(one.reason).may_mix < traits(reason).may_mix;
    };
    const auto before = std::find_if(verdict.against.begin(), verdict.against.end(), is_milder);
    verdict.against.insert(before, {reason, at, std::move(words), std::move(lifted_by), lot});
}

} // namespace mellowbin::dough
