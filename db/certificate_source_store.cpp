#include "db/certificate_source_store.h"

#include "core/fingerprint.h"
#include "db/base64.h"
#include "db/numbering.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

std::string print_of(std::string_view bytes) { return fmt::format("{:016x}", fingerprint(bytes)); }

} // namespace

std::optional<CertificateSourceId> CertificateSourceStore::find(std::string_view bytes) const {
    std::optional<CertificateSourceId> found;
    connection_.query("SELECT id, content FROM certificate_source WHERE fingerprint = $1 AND size = $2",
                      {print_of(bytes), static_cast<std::int64_t>(bytes.size())}, [&](const Row& row) {
                          if (from_base64(row.text(1)) == bytes)
                              found = row.id<CertificateSourceId>(0);
                      });
    return found;
}

bool CertificateSourceStore::has(CertificateSourceId id) const {
    bool is_there = false;
    connection_.query("SELECT id FROM certificate_source WHERE id = $1", {id},
                      [&](const Row&) { is_there = true; });
    return is_there;
}

CertificateSourceId CertificateSourceStore::keep(Change& change, const CertificateSource& source) {
    if (const auto kept = find(source.bytes))
        return *kept;
    const CertificateSourceId id{next_number(change.connection(), "certificate_source")};
    change.connection().execute(
        "INSERT INTO certificate_source (id, name, is_pasted, size, fingerprint, content, at, who) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7, $8)",
        {id, source.name, source.is_pasted ? 1 : 0, static_cast<std::int64_t>(source.bytes.size()),
         print_of(source.bytes), to_base64(source.bytes), change.journal_line().at,
         change.journal_line().who});
    return id;
}

Result<Done> CertificateSourceStore::tie(Change& change, LotId lot, CertificateSourceId source,
                                         std::string_view place) {
    if (!has(source))
        return change.refuse({"Certificate", fmt::format("number {} is not in the book", source.number()),
                              "Read the certificate again"});
    change.connection().execute("INSERT INTO lot_source (lot_id, source_id, place) VALUES ($1, $2, $3)",
                                {lot, source, place});
    change.touches(record_of(lot));
    return Done{};
}

std::optional<LotSource> CertificateSourceStore::of(LotId lot) const {
    std::optional<LotSource> found;
    connection_.query("SELECT s.id, s.name, s.is_pasted, s.size, l.place, s.at, s.who FROM lot_source l "
                      "JOIN certificate_source s ON s.id = l.source_id WHERE l.lot_id = $1",
                      {lot}, [&](const Row& row) {
                          found = LotSource{row.id<CertificateSourceId>(0),
                                            row.words(1),
                                            row.integer(2) != 0,
                                            row.integer(3),
                                            row.words(4),
                                            row.instant(5),
                                            row.words(6)};
                      });
    return found;
}

std::optional<CertificateSource> CertificateSourceStore::source(CertificateSourceId id) const {
    std::optional<CertificateSource> found;
    connection_.query(
        "SELECT name, is_pasted, content, fingerprint, at, who FROM certificate_source "
        "WHERE id = $1",
        {id}, [&](const Row& row) {
            auto bytes = from_base64(row.text(2));
            if (!bytes || print_of(*bytes) != row.text(3))
                throw BookError(BookFault::damaged,
                                fmt::format("The certificate {} is not as it was kept. Nothing was "
                                            "changed. Keep the file as it is, and open a saved copy.",
                                            row.text(0)));
            found = CertificateSource{
                id, row.words(0), row.integer(1) != 0, *std::move(bytes), row.instant(4), row.words(5)};
        });
    return found;
}

} // namespace mellowbin
