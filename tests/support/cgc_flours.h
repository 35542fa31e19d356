#pragma once

#include <string>
#include <string_view>

namespace mellowbin::testing {

/// The flours of Canadian wheat composites that the Canadian Grain Commission published with its harvest and
/// export reports (2013 to 2021), a comma-separated table whose heads are ids such as protein_14mb, made into
/// a certificate file of the form that intake reads: the same figures, each head with its unit and basis, and
/// the extensibility in mm instead of cm. A lot is called "CGC-" and the row's id and weighs 1,000 kg (the
/// table knows no weights). What is measured on the wheat, or is no property of a lot here, stays in columns
/// that no lot has. Throws std::runtime_error when the table has other columns.
std::string certificates_of_cgc_flours(std::string_view table);

} // namespace mellowbin::testing
