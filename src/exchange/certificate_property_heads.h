#pragma once

#include "exchange/certificate_layout.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::exchange {

/// The heads of a table of properties: "Parameter | Method | Unit | Result".
struct PropertyHeads {
    std::vector<FilledCell> columns;
    std::vector<std::optional<TableHead>>
        says; ///< nothing: a lot's own column, or one that is not understood
    std::vector<std::string> texts;
    std::size_t property = 0; ///< the column of labels

    /// The columns that are lots' own, where there are any.
    [[nodiscard]] std::vector<std::size_t> lot_columns() const;
};

/// The heads that a row is; nothing where it is none. Two words that head such a table are needed, one of
/// them of the property or the value.
std::optional<PropertyHeads> property_heads(const Sheet& sheet, std::size_t row,
                                            const std::vector<FilledCell>& cells);

} // namespace mellowbin::exchange
