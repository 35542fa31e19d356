#pragma once

#include "core/result.h"
#include "exchange/sheet.h"

#include <string_view>

namespace mellowbin::exchange {

/// Text of a file or pasted, in UTF-8, UTF-16 with a byte order mark, or Windows-1252, as UTF-8 without the
/// mark. Refused, naming the line: a NUL byte, half a UTF-16 character, bytes that are none of the three.
Result<std::string> as_utf8(std::string_view bytes);

/// Takes text apart into lines and fields. Tabs, semicolons, pipes, or two and more spaces part fields,
/// commas where all else parts nothing and the fields count up; fields in quotation marks may hold separators
/// and line ends, as in CSV. A form feed begins a page. One table, `kind` as given.
Result<Sheet> read_laid_out_text(std::string_view bytes, SheetKind kind = SheetKind::text,
                                 const SheetLimits& limits = {});

} // namespace mellowbin::exchange
