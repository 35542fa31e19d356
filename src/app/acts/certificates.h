#pragma once

#include "app/acts/act.h"
#include "app/acts/intake.h"
#include "app/models/certificate.h"
#include "core/lot.h"

#include <cstdint>
#include <string>

/// Certificates that are read, looked at and then kept, and the one a lot came with.
namespace mellowbin::app {

/// Reads a certificate that was pasted, as ReadCertificateFile does a file's; nothing is written to the book.
struct ReadPastedCertificate {
    std::string text;
    LotDraft defaults;
};
/// The certificate that is read is understood anew by what a person says of it: all of it, in place of what
/// was said before. Writes nothing.
struct UnderstandCertificate {
    CertificateSaid said;
    std::string of_lot = {}; ///< the lot it must be of; empty: any
};
/// What is shown of the certificate was understood rightly: the mill's words are learned, the certificate is
/// kept, and its lots are handed to the delivery, each with its place in it. Nothing is taken in yet.
struct ConfirmCertificate {
    std::uint64_t made = 0; ///< CertificateModel::made, as it was shown
    FaultyLines faulty_lots = FaultyLines::take_nothing;
    /// Lots that intake would not take as they stand are faulty, too; and why they come in all the same.
    bool must_be_whole = false;
    std::string accept_reason = {};
};
/// The certificate is read no more; nothing of it is kept.
struct PutCertificateAside {};

/// Writes the certificate that a lot came with into a file, as it came; changes no book.
struct SaveCertificateSource {
    LotId lot;
    std::string path; ///< a file, or a folder, where it has its own name; empty: beside the book
};

/// What work on the worker has to say: its tables are understood, or why not.
Result<Told> take_certificate(State& state);
/// The certificate at hand by what the book knows now; where none is, nothing.
void understand_certificate(State& state);

Result<Told> carry_out(State& state, const ReadPastedCertificate& act);
Result<Told> carry_out(State& state, const UnderstandCertificate& act);
Result<Told> carry_out(State& state, const ConfirmCertificate& act);
Result<Told> carry_out(State& state, const PutCertificateAside& act);
Result<Told> carry_out(State& state, const SaveCertificateSource& act);

} // namespace mellowbin::app
