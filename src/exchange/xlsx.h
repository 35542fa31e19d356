#pragma once

#include "core/result.h"
#include "exchange/sheet.h"

#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// Reads a spreadsheet of the Open XML form (.xlsx), sheets in their order. Numbers are read by the number
/// format of their cell: percent, date, plain. A formula is read by the result that was saved with it; one
/// without is a cell in trouble. Hidden sheets, rows and columns are left out and noted. Refused in words,
/// before anything is unpacked where that can be: a file over the limits, a packed file that unpacks out of
/// all proportion, one that is torn, encrypted, no spreadsheet, or of the old binary form (.xls).
Result<std::vector<Sheet>> read_xlsx(std::string_view bytes, const SheetLimits& limits = {});

} // namespace mellowbin::exchange
