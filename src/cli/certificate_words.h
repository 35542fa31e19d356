#pragma once

#include "app/models/certificate.h"
#include "app/models/mill_words.h"

#include <iosfwd>
#include <span>
#include <string>

/// A certificate beside what was understood of it, as text and as JSON.
namespace mellowbin::cli {

void print_certificate(std::ostream& out, const app::CertificateModel& certificate);
std::string certificate_as_json(const app::CertificateModel& certificate);

void print_mill_words(std::ostream& out, std::span<const app::MillWordRow> words);
std::string mill_words_as_json(std::span<const app::MillWordRow> words);

} // namespace mellowbin::cli
