#pragma once

#include "exchange/certificate_layout.h"
#include "exchange/certificate_questions.h"
#include "exchange/certificate_sheet.h"

#include <span>
#include <string>
#include <vector>

namespace mellowbin::exchange {

/// What the understanding of every value of a paper goes by.
struct PaperContext {
    std::span<const Sheet> sheets;
    const CertificateRequest& request;
    const CertificateMapping& mapping; ///< with the answers
    const LabelBook& labels;
    QuestionBook& questions;
    bool is_own_file = false;
    StatedBasis basis;
    DecimalMark decimals = DecimalMark::not_known; ///< learned, or as the paper writes throughout
    DateOrder dates = DateOrder::not_known;        ///< the same
};

/// A laid out value, understood, left out, or refused.
struct ValueRead {
    UnderstoodValue value;
    Refusals refusals;
    std::string left_out;    ///< why it is none; the value is empty then
    bool is_nothing = false; ///< nothing was measured or said: it is missing
};

/// A figure of a property or of what the mill added.
ValueRead read_result(const LaidOutValue& laid_out, const Meaning& meaning, PaperContext& paper);
/// A fact of the lot: a day, a weight, a name, a number.
ValueRead read_fact(const LaidOutValue& laid_out, const Meaning& meaning, PaperContext& paper);

// What both need.

/// The value with its place and its source filled in.
UnderstoodValue beside_source(const LaidOutValue& laid_out, const Meaning& meaning,
                              const PaperContext& paper);
/// A question about the value's label, marked as open at the value.
void ask_of(ValueRead& read, CertificateQuestion question, PaperContext& paper);
/// "B7, Moisture"
std::string field_of(const UnderstoodValue& value);
/// A figure with a unit of its own, of its cell or of its label, in the meaning's own unit.
void read_measured(const LaidOutValue& laid_out, const Meaning& meaning, PaperContext& paper,
                   ValueRead& read);

} // namespace mellowbin::exchange
