#pragma once

#include "app/acts/intake.h"
#include "app/models/certificate.h"
#include "cli/session.h"
#include "core/door.h"

#include <string>
#include <vector>

namespace mellowbin::cli {

/// Certificates that are understood before their lots are taken in: spreadsheets, PDF, text with heads of a
/// mill's own.
struct CertificateTyped {
    std::string file; ///< "-": what is piped in
    LotDraft defaults;
    bool only_what_is_good = false;
    std::vector<std::string> meanings, answers;
    bool confirm = false;
    std::string of_lot;
};

/// How a meaning and an answer are written on the command line.
inline constexpr const char* meaning_form =
    "WORDS=MEANING[; unit=UNIT][; basis=BASIS][; method=METHOD][; n=FACTOR]";
inline constexpr const char* answer_form = "QUESTION=ANSWER";

/// Takes a meaning apart: "Feuchtkleber=wet gluten; basis=14 %; method=ICC 155". Refused: another form, a
/// meaning or a part that is none.
Result<app::LabelSaid> read_label_said(std::string_view typed);

/// What is said of a delivery beside the file.
struct SaidBeside {
    std::vector<DoorCheckDraft> door;
    app::OfDelivery delivery;
    app::PalletsOfLots pallets;
};

/// It is piped in, or is no CSV file with our own heads.
bool is_certificate_to_understand(const std::string& file);
/// Says what was understood beside its source; what is asked is refused with its place. Confirmed, the lots
/// are taken in and the mill's words are kept.
int take_in_certificate(Session& session, const CertificateTyped& typed, SaidBeside beside);

} // namespace mellowbin::cli
