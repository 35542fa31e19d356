#pragma once

#include "core/result.h"
#include "db/settings_store.h"
#include "exchange/scan.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>

/// The one place in which acts read what a scanner sent, or a person typed in its place.
namespace mellowbin::app {

struct ReadBytes {
    exchange::Scan scan;
    std::string lot; ///< its lot number; empty: a label without one
    std::optional<exchange::SeparatorDoubt> doubt = {};
};
/// By what the plant says of its scanners. Refused where it cannot be read.
Result<ReadBytes> read_bytes(std::span<const Setting> settings, std::string_view bytes);
/// Its lot number alone; refused, too, where a label has none.
Result<std::string> lot_in(std::span<const Setting> settings, std::string_view bytes);

} // namespace mellowbin::app
