#include "exchange/certificate_value.h"

#include "core/certificate.h"
#include "core/decimal.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <array>
#include <initializer_list>

namespace mellowbin::exchange {
namespace {

/// The first that says something.
std::string first_of(std::initializer_list<std::string_view> texts) {
    for (const auto text : texts)
        if (!trimmed(text).empty())
            return std::string(trimmed(text));
    return "";
}

/// Bases that flour is stated at, for a person to choose from: common practice, no source. Any other may be
/// typed.
constexpr std::array usual_bases{"as is", "14 % moisture", "dry matter", "13.5 % moisture", "15 % moisture"};

void ask_basis(const CertificateLabel& label, ValueRead& read, PaperContext& paper) {
    CertificateQuestion question;
    question.kind = QuestionKind::basis;
    question.key = question_key(question.kind, label.folded);
    question.words = fmt::format("At which moisture are the figures of \"{}\" stated?", label.text);
    for (const auto* basis : usual_bases)
        question.choices.push_back({basis, basis});
    ask_of(read, std::move(question), paper);
}

void take_basis(const LaidOutValue& laid_out, const Meaning& meaning, const CertificateLabel& label,
                ValueRead& read, PaperContext& paper) {
    auto& value = read.value;
    if (!trimmed(laid_out.basis).empty() && folded(laid_out.basis) != "" && value.basis.empty()) {
        const auto in_field = basis_in_words(laid_out.basis);
        if (!in_field && traits(*meaning.property).has_basis) {
            read.refusals.push_back({field_of(value),
                                     fmt::format("the basis \"{}\" was read, which is none that is known",
                                                 excerpt(laid_out.basis)),
                                     "See on the certificate which moisture the figure is stated at"});
            return;
        }
        value.basis = in_field.value_or("");
    }
    const auto* learned = label_in(paper.mapping, label.folded);
    const auto stated = first_of({value.basis, label.basis, learned ? learned->basis : ""});
    value.basis = basis_in_words(stated).value_or(stated);
    if (!traits(*meaning.property).has_basis) {
        // Of moisture the core sees to it that it is as is; others have none.
        if (meaning.property != Property::moisture)
            value.basis.clear();
        return;
    }
    if (value.basis.empty() && !paper.basis.basis.empty()) {
        value.basis = paper.basis.basis;
        value.note += (value.note.empty() ? "" : "; ") +
                      fmt::format("basis as {} says of all figures", paper.basis.where);
    }
    if (value.basis.empty())
        ask_basis(label, read, paper);
}

void take_method(const LaidOutValue& laid_out, const Meaning& meaning, const CertificateLabel& label,
                 ValueRead& read, PaperContext& paper) {
    const auto* learned = label_in(paper.mapping, label.folded);
    const bool says_something = !folded(laid_out.method).empty();
    read.value.method = first_of({says_something ? laid_out.method : "", read.value.method, label.method,
                                  learned ? learned->method : ""});
    if (!depends_on_method(*meaning.property) || !read.value.method.empty() ||
        (paper.is_own_file && label.is_own))
        return;
    CertificateQuestion question;
    question.kind = QuestionKind::method;
    question.key = question_key(question.kind, label.folded);
    question.words = fmt::format(
        "By which method was \"{}\" measured? Its figures differ from method to method", label.text);
    ask_of(read, std::move(question), paper);
}

void take_nitrogen_factor(const LaidOutValue& laid_out, const CertificateLabel& label, ValueRead& read,
                          const PaperContext& paper) {
    const auto* learned = label_in(paper.mapping, label.folded);
    auto& value = read.value;
    value.nitrogen_factor =
        first_of({laid_out.nitrogen_factor, label.nitrogen_factor, learned ? learned->nitrogen_factor : ""});
    std::replace(value.nitrogen_factor.begin(), value.nitrogen_factor.end(), ',', '.');
    if (value.nitrogen_factor.empty())
        value.note +=
            (value.note.empty() ? "" : "; ") +
            fmt::format("N x {}, as for wheat flour: no factor is printed", as_typed(wheat_nitrogen_factor));
}

} // namespace

std::string field_of(const UnderstoodValue& value) { return fmt::format("{}, {}", value.where, value.name); }

UnderstoodValue beside_source(const LaidOutValue& laid_out, const Meaning& meaning,
                              const PaperContext& paper) {
    const auto& sheet = paper.sheets[laid_out.sheet];
    UnderstoodValue value;
    value.lot = laid_out.lot;
    value.means = meaning.key;
    value.name = meaning.name;
    value.where = where(sheet, laid_out.row, laid_out.column);
    value.source_label = paper.labels.at(laid_out.label).text;
    value.source_text = laid_out.text.empty() ? laid_out.trouble : laid_out.text;
    if (!laid_out.unit.empty())
        value.source_text += " " + laid_out.unit;
    value.source_line = source_line(sheet, laid_out.row);
    return value;
}

void ask_of(ValueRead& read, CertificateQuestion question, PaperContext& paper) {
    question.means = read.value.means;
    question.where = read.value.where;
    question.source_label = read.value.source_label;
    question.source_text = read.value.source_text;
    read.value.questions.push_back(question.key);
    paper.questions.ask(std::move(question));
}

ValueRead read_result(const LaidOutValue& laid_out, const Meaning& meaning, PaperContext& paper) {
    ValueRead read;
    read.value = beside_source(laid_out, meaning, paper);
    const auto& label = paper.labels.at(laid_out.label);
    read_measured(laid_out, meaning, paper, read);
    if (read.is_nothing || !read.left_out.empty() || !read.refusals.empty() || !meaning.property)
        return read;
    take_basis(laid_out, meaning, label, read, paper);
    take_method(laid_out, meaning, label, read, paper);
    if (meaning.property == Property::protein)
        take_nitrogen_factor(laid_out, label, read, paper);
    return read;
}

} // namespace mellowbin::exchange
