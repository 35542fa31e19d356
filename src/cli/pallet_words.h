#pragma once

#include "app/app.h"
#include "cli/session.h"
#include "core/delivery.h"
#include "core/pallet.h"
#include "core/result.h"

#include <string>
#include <string_view>
#include <utility>

namespace mellowbin::cli {

/// How a pallet is written on the command line: "W24-118=106141411234567897; 1000 kg".
inline constexpr std::string_view pallet_form = "LOT=SSCC[; KG kg]";

/// The lot's number and its pallet. Whether the lot is there, and the SSCC one, is for core to say. Refused
/// under "Pallet" when it is not written so.
Result<std::pair<std::string, PalletDraft>> read_pallet(std::string_view typed);

/// The order's number names the expected delivery where nobody did; that is told.
void find_by_order(const Session& session, const app::App& app, DeliveryDraft& said);

} // namespace mellowbin::cli
