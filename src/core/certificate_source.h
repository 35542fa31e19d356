#pragma once

#include "core/day.h"
#include "core/id.h"

#include <cstdint>
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

/// Where the certificate of a lot that is being typed is: in the book, or still a file of this machine, which
/// is kept with the lot where it is by then what was read.
struct SourceName {
    CertificateSourceId kept;      ///< known: in the book
    std::string path;              ///< else of the file; empty: no certificate
    std::uint64_t fingerprint = 0; ///< of the file's bytes as they were read

    [[nodiscard]] bool is_empty() const { return !kept.is_known() && path.empty(); }
    friend bool operator==(const SourceName&, const SourceName&) = default;
};
/// As a draft holds it: "12", or "file 0123456789abcdef /srv/dock/monday.csv"; the two functions are inverse.
std::string as_text(const SourceName& source);
/// Of a text that is none, nothing.
SourceName source_named(std::string_view text);

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
