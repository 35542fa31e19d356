#pragma once

#include "app/models/lots.h"

namespace mellowbin::views {

/// The last day, the door, how results stand: what somebody has seen who releases the lot.
void draw_before_release(const app::LotSheet& sheet);
/// The newest retest of each property against the certificate, with what aging says beside it.
void draw_agreements(const app::LotSheet& sheet);
/// As printed and as extended, in the role of what it means today; nothing where none is printed.
void draw_best_before(const app::LotSheet& sheet);
/// The checks at the door, or that there were none.
void draw_door(const app::LotSheet& sheet);

} // namespace mellowbin::views
