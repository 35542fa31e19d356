#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/property.h"
#include "core/quantity.h"
#include "core/result.h"

#include <optional>
#include <string>

namespace mellowbin {

/// How a mill answered.
struct ComplaintAnswer {
    Day answered_on;
    std::string words;
    std::string who; ///< wrote it down
    Instant logged_at;
    friend bool operator==(const ComplaintAnswer&, const ComplaintAnswer&) = default;
};

/// What a plant held against a mill. It is withdrawn by a second row, and an answer taken back by a second
/// one, never edited.
struct Complaint {
    ComplaintId id;
    MillId mill;
    std::optional<LotId> lot;         ///< none: the mill's flour or its deliveries as such
    std::optional<Property> property; ///< that it is about; or
    std::string subject;              ///< in a word: "Bags"; one of the two at least
    std::string words;
    Grams affected; ///< 0: not said
    Day noticed_on;
    std::string who;
    Instant logged_at;
    std::optional<ComplaintAnswer> answer; ///< none: it is open
    bool is_withdrawn = false;

    friend bool operator==(const Complaint&, const Complaint&) = default;
};

/// "Protein", "Bags", or both, "Ash: grey specks".
std::string about_in_words(const Complaint& complaint);

/// A complaint as typed. Whose mill and lot it is, the book says.
struct ComplaintDraft {
    std::string lot;      ///< a lot number of the mill; empty: none
    std::string property; ///< name or key; empty: none
    std::string subject;
    std::string words;
    std::string kg;         ///< empty: not said
    std::string noticed_on; ///< empty: today
    friend bool operator==(const ComplaintDraft&, const ComplaintDraft&) = default;
};

/// Reads the draft, but for its lot, and gives every reason at once when it cannot be taken: neither property
/// nor subject, a property that is none, no words, a weight that is no number, is not above 0 or over 1,000
/// t, a day to come. The complaint has no number, mill, lot, person or instant yet.
Result<Complaint> accept(const ComplaintDraft& draft, Day today);

/// An answer as typed.
struct ComplaintAnswerDraft {
    std::string words;
    std::string answered_on; ///< empty: today
    friend bool operator==(const ComplaintAnswerDraft&, const ComplaintAnswerDraft&) = default;
};

/// Reads the draft: refused without words, on a day to come, or before the complaint was noticed. The answer
/// has no person or instant yet.
Result<ComplaintAnswer> accept(const ComplaintAnswerDraft& draft, const Complaint& complaint, Day today);

} // namespace mellowbin
