#pragma once

#include "core/result.h"
#include "exchange/sheet.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// A part of a packed file (ZIP, as APPNOTE 6.3 of its makers describes it), as its directory states it.
struct PackedPart {
    std::string name;
    std::size_t packed_bytes = 0;
    std::size_t unpacked_bytes = 0;
    std::uint32_t check = 0; ///< CRC-32 of what was packed
    int method = 0;          ///< 0 as it is, 8 deflated
    std::size_t header_at = 0;
};

/// A packed file whose directory was read and held against the limits; nothing is unpacked yet. Views the
/// bytes it was made of.
class PackedFile {
public:
    /// Refused: no packed file, torn (its directory or a part lies beyond its end), encrypted, split over
    /// several disks, of more than 4 GB; parts that unpack to more than the limits in sum, that are out of
    /// all proportion, or that lie over each other.
    static Result<PackedFile> open(std::string_view bytes, const SheetLimits& limits);

    [[nodiscard]] const std::vector<PackedPart>& parts() const { return parts_; }
    [[nodiscard]] const PackedPart* find(std::string_view name) const;
    /// The part unpacked, never more than its directory states. Refused where it unpacks to another length or
    /// another check sum: it is torn.
    [[nodiscard]] Result<std::string> unpacked(const PackedPart& part) const;

private:
    std::string_view bytes_;
    std::vector<PackedPart> parts_;
};

/// Bytes that begin as a packed file does.
bool looks_packed(std::string_view bytes);

} // namespace mellowbin::exchange
