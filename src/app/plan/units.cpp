#include "app/plan/units.h"

namespace mellowbin::app {

double liquefaction(double falling_number) { return to_liquefaction(FallingNumber{falling_number}).value(); }

/// Maturity is a share of the strength that time gives to flour of a class. A second flour of the same class
/// carries the dough like the first and has its target. One of another class (the wholemeal of a mixed loaf)
/// is there for taste or colour and has a clock of its own: asking it for the first one's figure would mean
/// nothing, so it has no target and draws no oxidant; its windows, its release and its keeping hold all the
/// same. What the mill put into it is counted on the card, where the whole dough's flour is known.

} // namespace mellowbin::app
