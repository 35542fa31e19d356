#pragma once

#include "app/models/certificate.h"
#include "app/models/mill_words.h"

#include <vector>

namespace mellowbin::test {

/// Of two lots: moisture and falling number understood, protein without a basis, a label nobody knows, and a
/// lot that cannot be kept.
app::CertificateModel a_certificate();
/// The same of one lot, with nothing asked.
app::CertificateModel an_understood_certificate();
/// Three words of Harrow Mill: a figure, one left out, and the order of its days.
std::vector<app::MillWordRow> words_of_a_mill();

} // namespace mellowbin::test
