#pragma once

#include "app/acts/notice.h"
#include "app/models/intake.h"
#include "ui/views/common/form.h"
#include "ui/views/intake/delivery.h"
#include "ui/widgets/table.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::views {

/// An answer that was given, with the question's own words: it is asked no more.
struct AnswerGiven {
    std::string question, words;
    std::string answer, answer_words;
};

/// A certificate that is pasted or was read from a file, and what a person says of it before it is kept.
struct CertificateForm {
    bool is_pasting = false;
    std::string pasted;
    std::string path; ///< of the file that is looked at; empty: what was pasted is, or nothing

    std::string mill; ///< chosen here; empty: as the delivery, or the certificate, has it
    std::vector<app::LabelSaid> labels;
    std::vector<AnswerGiven> answers;
    std::vector<AnswerGiven> typing; ///< half typed, and not given yet
    std::string changing;            ///< label whose meaning is being changed

    Asked pasting, understanding, confirming;
    std::uint64_t opened_seen = 0, made_seen = 0;
    bool is_resumed = false; ///< what was said of it before the window went is said again once it is open
    bool shows_every_value = false;
    ui::TableState lots, values;
    bool wants_focus = false; ///< of the field that is pasted into

    [[nodiscard]] app::CertificateSaid said() const;
    /// What is typed to the question, and not given yet.
    std::string& typed(const std::string& question);
    /// Nothing is said of a certificate any more.
    void forget_said();
    [[nodiscard]] bool said_is_empty() const;
};

/// In place of the delivery, while a certificate is pasted, read or looked at: false where none is.
bool draw(CertificateForm& form, const Delivery& delivery, const app::IntakeModel& model,
          const app::Notice& notice, app::Intents& out);

/// The lots of the delivery, as what the certificate does not say of them.
LotDraft defaults_of(const Delivery& delivery);

/// The lines of the certificate: source, what was understood, what is asked. True when something was said.
bool certificate_lines(CertificateForm& form, const app::CertificateModel& certificate,
                       const std::vector<std::string>& bases);
/// Every value of every lot, and how the lots stand.
void certificate_values(CertificateForm& form, const app::CertificateModel& certificate);

} // namespace mellowbin::views
