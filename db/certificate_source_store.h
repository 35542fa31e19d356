#pragma once

#include "core/certificate_source.h"
#include "db/change.h"

#include <optional>
#include <string>

namespace mellowbin {

/// The certificates as they came, each kept once, and which lot came with which. Appended only.
class CertificateSourceStore {
public:
    explicit CertificateSourceStore(Connection& connection) : connection_(connection) {}

    /// What the book has of these very bytes, or nothing.
    [[nodiscard]] std::optional<CertificateSourceId> find(std::string_view bytes) const;
    [[nodiscard]] bool has(CertificateSourceId id) const;
    /// Keeps it by the person and at the instant of the change's line, or finds it kept already.
    CertificateSourceId keep(Change& change, const CertificateSource& source);
    /// The lot came with this certificate, of which it stood at `place`. Refused where the book has no such
    /// certificate.
    Result<Done> tie(Change& change, LotId lot, CertificateSourceId source, std::string_view place);

    /// With which certificate the lot came; nothing where none was kept.
    [[nodiscard]] std::optional<LotSource> of(LotId lot) const;
    /// As it came. Throws BookFault::damaged where what the book has is not what was kept.
    [[nodiscard]] std::optional<CertificateSource> source(CertificateSourceId id) const;

private:
    Connection& connection_;
};

} // namespace mellowbin
