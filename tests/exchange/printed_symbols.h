#pragma once

#include "exchange/symbol.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace mellowbin::testing {

/// A picture in grey, as a label printer of 203 dpi lays it down: its dots are 1/8 mm.
struct Picture {
    std::size_t width = 0, height = 0;
    std::vector<std::uint8_t> grey; ///< row by row; 255 is paper
    /// As a portable grey map (PGM).
    [[nodiscard]] std::string as_pgm() const;
};

/// The symbols one under another, each with its quiet zone. Modules of 0.5 mm, which a trade unit's symbol
/// has at least (GS1 General Specifications: 0.495 mm), bars of 31.75 mm.
Picture printed(const std::vector<exchange::Symbol>& symbols);

/// A reader's words: what it says that the symbol is, and its bytes.
struct Seen {
    std::string identifier; ///< "]C1"; empty: the reader does not say
    std::string bytes;
};
std::vector<Seen> seen_by_zxing(const Picture& picture);
/// By the program zbarimg, which reads no Data Matrix. `is_there`: the machine has it.
std::vector<Seen> seen_by_zbar(const Picture& picture, bool& is_there);

} // namespace mellowbin::testing
