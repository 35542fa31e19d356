#include "db/certificate_rows.h"

#include <fmt/format.h>

namespace mellowbin {

Basis BasisReader::read(std::string_view words) {
    const auto known = known_.find(words);
    if (known != known_.end())
        return known->second;
    const auto basis = read_basis("", words);
    if (!basis)
        throw BookError(
            BookFault::damaged,
            fmt::format("The book holds \"{}\" where a moisture basis belongs. Nothing was changed. "
                        "Keep the file as it is, and open a saved copy.",
                        words));
    return known_.emplace(std::string(words), *basis).first->second;
}

CertificateValue certificate_value_from(const Row& row, BasisReader& bases) {
    return {row.key(1, property_from_key), row.real(2), bases.read(row.text(3)), row.words(4), row.real(5)};
}

void write_certificate(Connection& connection, std::string_view owner, std::int64_t id,
                       const Certificate& certificate) {
    const auto insert = fmt::format("INSERT INTO {0}_value ({0}_id, {1}) VALUES ($1, $2, $3, $4, $5, $6)",
                                    owner, certificate_columns);
    for (const auto& v : certificate.values())
        connection.execute(
            insert, {id, traits(v.property).key, v.value, in_words(v.basis), v.method, v.nitrogen_factor});
}

} // namespace mellowbin
