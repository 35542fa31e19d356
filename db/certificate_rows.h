#pragma once

#include "core/certificate.h"
#include "db/connection.h"

#include <map>
#include <string>
#include <string_view>

namespace mellowbin {

/// Reads bases; a book has few different ones and many rows that have one.
class BasisReader {
public:
    /// Throws BookFault::damaged where no basis stands.
    Basis read(std::string_view words);

private:
    std::map<std::string, Basis, std::less<>> known_;
};

/// The columns of a laboratory's result, behind the first, which is its owner.
inline constexpr std::string_view certificate_columns = "property, value, basis, method, nitrogen_factor";
CertificateValue certificate_value_from(const Row& row, BasisReader& bases);

/// Writes the results of a record of the table `owner` into its table of values.
void write_certificate(Connection& connection, std::string_view owner, std::int64_t id,
                       const Certificate& certificate);

} // namespace mellowbin
