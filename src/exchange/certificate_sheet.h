#pragma once

#include "core/lot.h"
#include "exchange/certificate_file.h"
#include "exchange/certificate_mapping.h"
#include "exchange/sheet.h"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace mellowbin::exchange {

/// An answer to a question of an earlier reading of the same file.
struct CertificateAnswer {
    std::string question; ///< CertificateQuestion::key
    std::string answer;   ///< a choice's key, or what was typed where a question has none

    friend bool operator==(const CertificateAnswer&, const CertificateAnswer&) = default;
};

/// What a certificate must be of, where that is known: it says another, and it is refused by name.
struct CertificateOf {
    std::string mill; ///< the plant's names; empty: any
    std::string flour;
    std::string lot; ///< the supplier's lot number
};

/// What a reading goes by beside the paper.
struct CertificateRequest {
    CertificateMapping known;               ///< of the mill; or the mapping of an earlier reading, corrected
    std::vector<CertificateAnswer> answers; ///< those that no question asks any more are passed over
    CertificateDefaults defaults;           ///< where the paper says nothing; what it says wins
    CertificateOf must_be;
    /// Names the plant knows. Where they are given, a mill or a flour on the paper that is none of them is
    /// asked.
    std::vector<std::string> mills, flours;
};

/// What a question is about.
enum class QuestionKind {
    meaning,      ///< what a label means that may mean two things
    unit,         ///< no unit stands there
    basis,        ///< no moisture basis, which the property needs
    method,       ///< no method, which the property needs
    decimal_mark, ///< "1.250": a thousand or one and a quarter
    date_order,   ///< "03/04/2026"
    which_value,  ///< two values for one property or field
    which_name,   ///< a mill or a flour the plant does not know by this name
};
std::string_view key_of(QuestionKind kind);

struct AnswerChoice {
    std::string key;
    std::string words; ///< "1.25 (the point is a decimal point)"
};

/// What a person must say before the lots can be kept. Nothing was guessed in its place.
struct CertificateQuestion {
    std::string key; ///< the same in every reading of the same file: "basis:protein % n x 5 7"
    QuestionKind kind{};
    std::string means; ///< key of the property or fact it is about; empty where that is the question
    std::string where, source_label, source_text; ///< the first that asks it
    std::size_t times = 1;                        ///< values that wait for it
    std::string words;                            ///< the question
    std::vector<AnswerChoice> choices;            ///< empty: typed
};

inline constexpr std::size_t every_lot = static_cast<std::size_t>(-1);

/// A value beside the words it was understood from.
struct UnderstoodValue {
    std::size_t lot = 0; ///< in CertificateReading::lots; every_lot for what the paper says once for all
    std::string means;   ///< key of the meaning
    std::string name;    ///< as the screen names it
    std::string value;   ///< as it goes into the draft; empty while a question about it is open
    std::string unit;    ///< of `value`, as shown: "%", "kg"; empty for none
    std::string basis, method, nitrogen_factor;
    std::string where;        ///< of the value: "B7"
    std::string source_label; ///< as it stands there
    std::string source_text;  ///< the value as it stands there, with its unit where that stands by itself
    std::string source_line;
    std::string note; ///< "g/kg taken by 0.1", "N x 5.7, as no factor stands there"; or empty
    std::vector<std::string> questions; ///< keys of those that are open
};

/// What was read and not understood, or is no part of a lot.
struct LeftOut {
    std::string where, label, text, why;
    std::string folded_label; ///< by which a person may give it a meaning in the mapping
};

/// A lot as the paper gives it.
struct CertificateLot {
    std::string where; ///< its row, its column, or the table
    LotDraft draft;
    Refusals refusals; ///< what is wrong already, each field with its cell in front: "B7, Moisture"
    std::vector<std::string> questions; ///< keys of open ones that concern it
};

/// A certificate, understood as far as it says so itself.
struct CertificateReading {
    Refusals troubles; ///< of the whole file: no table in it, no lot, another mill's; then no lot may be kept
    std::vector<CertificateLot> lots;
    std::vector<UnderstoodValue> values; ///< in the order of the paper
    std::vector<CertificateQuestion> questions;
    std::vector<LeftOut> left_out;
    std::vector<std::string> notes;
    CertificateMapping mapping; ///< as used, in full: what was known, what the words said, what was answered
};

/// Understands the tables of a certificate. Two forms: a lot a row, with heads (in one row, or name and unit
/// in two or three); or one lot, or several side by side, with a line "property, value, unit, basis, method"
/// each, the columns in any order, and facts of the lot as "label: value" above, below or beside. English,
/// German, French and Spanish words, and those the mapping has. A formula without result, a value that is no
/// number, a unit that does not fit, days in the wrong order, another lot than asked for are refused by their
/// cell.
CertificateReading understand(std::span<const Sheet> sheets, const CertificateRequest& request);

/// A lot that intake can take, and its place on the paper.
struct AcceptedLot {
    std::size_t lot = 0; ///< in CertificateReading::lots
    Lot accepted;
};
struct CertificateOutcome {
    std::vector<AcceptedLot> lots; ///< empty when a lot was refused and nothing is to be taken
    Refusals refused;              ///< every reason, each field with its cell in front; troubles come first
};

/// Accepts every lot as intake would; a lot with an open question is refused by it.
CertificateOutcome accept_reading(const CertificateReading& reading, const IntakeContext& context,
                                  OnRefusedLine policy);

} // namespace mellowbin::exchange
