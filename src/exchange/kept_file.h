#pragma once

#include "core/day.h"
#include "core/kept_text.h"
#include "core/result.h"

#include <string>
#include <string_view>

namespace mellowbin::exchange {

/// What the paths of the fields mean. Another form is not read.
inline constexpr std::string_view kept_form = "1";

/// A file of work begun: a head line with the version of its form, a line a fact or field, and a last line
/// that only a whole file has. Typed text may be any bytes.
struct KeptFile {
    std::string book; ///< its path, canonical
    Instant begun_at; ///< UTC
    Instant kept_at;  ///< UTC: of the newest text
    KeptText text;

    friend bool operator==(const KeptFile&, const KeptFile&) = default;
};

std::string bytes_of(const KeptFile& file);
/// Refused, with the reason under "Kept work": a file that is torn or changed, or of another version.
Result<KeptFile> read_kept_file(std::string_view bytes);

/// 16 hexadecimal digits that tell texts apart (FNV-1a, 64 bits). Not a secret's.
std::string fingerprint(std::string_view bytes);

} // namespace mellowbin::exchange
