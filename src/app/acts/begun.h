#pragma once

#include "app/acts/act.h"
#include "core/begun_delivery.h"
#include "core/kept_text.h"

#include <string>

/// Deliveries half logged, put aside in the book for whoever goes on with them.
namespace mellowbin::app {

/// All that was typed of a delivery; where it was taken over before, it is put aside under its number again.
struct PutDeliveryAside {
    KeptText text;
    std::string how_far; ///< "3 lots of Harrow Mill"
    BegunHold from = {};
};
/// Hands it to the window that asks, and to one alone: the read-model of Intake then has its text.
struct TakeOverDelivery {
    BegunId delivery;
    TakeFrom from = TakeFrom::where_it_waits;
};
/// Nobody will go on with it.
struct ThrowBegunAway {
    BegunHold delivery;
};
/// The counter-entry: it waits again as it stood.
struct BringBegunBack {
    BegunId delivery;
};

Result<Told> carry_out(State& state, const PutDeliveryAside& act);
Result<Told> carry_out(State& state, const TakeOverDelivery& act);
Result<Told> carry_out(State& state, const ThrowBegunAway& act);
Result<Told> carry_out(State& state, const BringBegunBack& act);

} // namespace mellowbin::app
