#pragma once

#include "core/result.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

/// A certificate as it was read: what was understood beside the words it was understood from.
namespace mellowbin::app {

/// What a person says of a label on a mill's papers; empty where nothing is to be said, or the papers say it.
struct LabelSaid {
    std::string label; ///< CertificateLabel::key
    std::string means; ///< key of a meaning
    std::string unit, basis, method, nitrogen_factor;
    friend bool operator==(const LabelSaid&, const LabelSaid&) = default;
};
struct AnswerSaid {
    std::string question; ///< CertificateAsked::key
    std::string answer;   ///< a choice's key, or as typed
    friend bool operator==(const AnswerSaid&, const AnswerSaid&) = default;
};
/// All that a person says of a certificate.
struct CertificateSaid {
    std::string mill; ///< the plant's name; empty: as the delivery has it
    std::vector<LabelSaid> labels;
    std::vector<AnswerSaid> answers;
    friend bool operator==(const CertificateSaid&, const CertificateSaid&) = default;
};

/// What a label may mean.
struct MeaningChoice {
    std::string key, name;
    std::vector<std::string> units; ///< keys of those that fit it
    bool has_basis = false, has_method = false, has_nitrogen_factor = false;
};

/// What a person has to say before the lots can be kept.
struct CertificateAsked {
    struct Choice {
        std::string key, words;
    };
    std::string key, label; ///< of the question; of the label it stands at
    std::string kind;       ///< "basis", "which_value", ...
    std::string where, text, words;
    std::size_t times = 1;       ///< values that wait for it
    std::vector<Choice> choices; ///< empty: typed
};

/// A label of the paper, with the first value under it.
struct CertificateLabel {
    std::string key;                ///< as labels are compared
    std::string where, shown, text; ///< the source: place, label and value as they stand there
    std::string line;               ///< the whole line
    std::size_t more = 0;           ///< further values under it
    std::string means, name;        ///< what was understood; empty: not known
    std::string value, unit, basis, method, nitrogen_factor;
    std::string note; ///< "g/kg taken by 0.1"; why it was left out
    LabelSaid said;   ///< as the mapping has it: what a person begins with who changes it
    bool is_left_out = false;
    bool is_learned = false;        ///< the mill's words were known before
    std::vector<std::size_t> asked; ///< in CertificateModel::asked: what the label waits for
};

/// One value of one lot, in the order of the paper.
struct CertificateRow {
    std::optional<std::size_t> lot; ///< in CertificateModel::lots; none: said once for all
    std::string where, shown, text, line;
    std::string name, value, unit, basis, method, nitrogen_factor, note;
    std::vector<std::string> asked; ///< the open questions, in words
};

struct CertificateLotRow {
    std::string where, code;
    std::string words;         ///< "7 figures, 12 000 kg", or the first thing against it
    Refusals refusals;         ///< each with its cell
    std::size_t questions = 0; ///< open ones that concern it
    [[nodiscard]] bool is_good() const { return refusals.empty() && questions == 0; }
};

struct CertificateModel {
    bool is_reading = false; ///< its tables are still being taken out of the file
    bool is_open = false;
    std::uint64_t opened = 0; ///< counts certificates
    std::uint64_t made = 0;   ///< counts: what is shown is new when it changes
    std::string name;         ///< of the file, or "Pasted text"
    std::string mill;         ///< whose words it was read by; empty: nobody's
    Refusals troubles;        ///< against the whole of it
    std::vector<CertificateLabel> labels;
    std::vector<CertificateAsked> asked;
    std::vector<CertificateRow> rows;
    std::vector<CertificateLotRow> lots;
    std::vector<std::string> notes;
    std::vector<MeaningChoice> meanings;
    std::size_t good = 0;     ///< lots with nothing against them
    std::size_t to_learn = 0; ///< words of the mill that confirming it would teach
};

struct Book;
struct CertificateAtHand;

/// What a label may mean, for a person to choose from: what is left out first, then lots' facts and figures.
const std::vector<MeaningChoice>& meaning_choices();
void make_certificate(const Book& book, const CertificateAtHand& at_hand, CertificateModel& model);

} // namespace mellowbin::app
