#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin {

/// Bytes as text that every engine keeps (RFC 4648, section 4, padded).
std::string to_base64(std::string_view bytes);
/// The bytes again; nothing for a text that is not such.
std::optional<std::string> from_base64(std::string_view text);

} // namespace mellowbin
