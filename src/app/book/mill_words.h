#pragma once

#include "core/mill_word.h"
#include "exchange/certificate_mapping.h"

#include <vector>

namespace mellowbin::app {

struct Book;

/// What the book knows of a mill's papers, as they are read by it.
exchange::CertificateMapping mapping_of(const Book& book, MillId mill);
/// What of this the book does not know yet of the mill, or knows otherwise.
std::vector<MillWord> learned_from(const exchange::CertificateMapping& mapping, const Book& book,
                                   MillId mill);
/// The word as the book has it; null where it has none.
const MillWord* word_in(const Book& book, const MillWord& word);

} // namespace mellowbin::app
