#pragma once

#include "core/day.h"
#include "core/id.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace mellowbin {

/// A certificate as it came to the plant: a file to the last byte, or what was pasted.
struct CertificateSource {
    CertificateSourceId id;
    std::string name; ///< of the file, without its folder; of what was pasted "Pasted text"
    bool is_pasted = false;
    std::string bytes;
    Instant kept_at;
    std::string kept_by;

    friend bool operator==(const CertificateSource&, const CertificateSource&) = default;
};

/// With which certificate a lot came, without its bytes.
struct LotSource {
    CertificateSourceId id;
    std::string name;
    bool is_pasted = false;
    std::int64_t size = 0; ///< bytes
    std::string place;     ///< of the lot in it: "line 7", "Lots!A5"
    Instant kept_at;
    std::string kept_by;

    friend bool operator==(const LotSource&, const LotSource&) = default;
};

} // namespace mellowbin
