#pragma once

#include "core/result.h"

#include <string>
#include <string_view>

namespace mellowbin::exchange {

/// Whether all bytes are UTF-8, shortest forms only.
bool is_utf8(std::string_view bytes);

/// Text of a file or pasted, in UTF-8, UTF-16 with a byte order mark, or else Windows-1252, as UTF-8 without
/// the mark. Refused, naming the line: a NUL byte or another control character (it is no text), half a
/// character of UTF-16, a byte that Windows-1252 does not have.
Result<std::string> as_utf8(std::string_view bytes);

} // namespace mellowbin::exchange
