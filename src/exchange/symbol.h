#pragma once

#include "core/result.h"
#include "exchange/element_string.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// Symbols to be scanned, as modules.
namespace mellowbin::exchange {

enum class SymbolKind {
    gs1_128,
    gs1_data_matrix,
    gs1_qr,
    code_128, ///< these hold a text of no form of GS1, or a Digital Link
    data_matrix,
    qr,
};
/// "GS1 DataMatrix"
std::string_view name_of(SymbolKind kind);

/// Dark and light modules, without the quiet zone that must stay light around them.
struct Symbol {
    std::size_t columns = 0, rows = 0; ///< one row: bars, as high as whoever draws them makes them
    std::size_t quiet = 0;             ///< light modules to be left on each side
    std::vector<bool> dark;            ///< row by row
    [[nodiscard]] bool is_dark(std::size_t column, std::size_t row) const {
        return dark[row * columns + column];
    }
};

/// The symbol that holds these elements; refused where the kind cannot: too many of them, a kind without GS1.
Result<Symbol> symbol_of(SymbolKind kind, const Elements& elements);
/// The same of a text; refused of a kind of GS1.
Result<Symbol> symbol_of(SymbolKind kind, std::string_view text);

} // namespace mellowbin::exchange
