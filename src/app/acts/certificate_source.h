#pragma once

#include "app/acts/act.h"
#include "core/lot.h"
#include "exchange/certificate_file.h"

#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {
class Change;
}

/// The certificates that the lots of a delivery came with.
namespace mellowbin::app {

/// A certificate as a draft names it, and where the lot stood in it.
struct CameWith {
    std::string source, place;
};
CameWith came_with(const LotDraft& draft);
/// A CSV file with our own heads into drafts, each with its place in the file; its notes are shown.
Result<CertificateFile> read_our_file(State& state, const std::string& path, const LotDraft& defaults);
/// What holds for lots of which a certificate does not say it: delivered today, where nobody says when.
CertificateDefaults defaults_of(const State& state, const LotDraft& defaults);

/// Each lot (one for one) is tied to the certificate it came with, in the change that takes it in; a file
/// that is not in the book yet is kept. What could not be, as further sentences: a file that is gone or was
/// changed since it was read, a certificate that this book has no more, is told, and the lot comes in all the
/// same.
Result<std::string> tie_certificates(State& state, Change& change, const std::vector<LotId>& lots,
                                     const std::vector<CameWith>& came_with);

} // namespace mellowbin::app
