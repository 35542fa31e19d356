#include "core/typed_text.h"
#include "exchange/certificate_figure.h"
#include "exchange/certificate_value.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::exchange {
namespace {

bool is_day(LotFact fact) {
    return fact == LotFact::milled_on || fact == LotFact::delivered_on || fact == LotFact::best_before ||
           fact == LotFact::certificate_date;
}

void ask_order(const PrintedDay& printed, ValueRead& read, PaperContext& paper) {
    CertificateQuestion question;
    question.kind = QuestionKind::date_order;
    question.key = question_key(question.kind, "");
    question.words = fmt::format("Is \"{}\" {} or {}?", excerpt(read.value.source_text), iso(*printed.day),
                                 iso(*printed.other));
    question.choices = {
        {std::string(key_of(DateOrder::day_first)), iso(*printed.day) + ": the day stands first"},
        {std::string(key_of(DateOrder::month_first)), iso(*printed.other) + ": the month stands first"}};
    ask_of(read, std::move(question), paper);
}

/// A month is no day, and nobody makes one up: it is typed by who knows it.
void ask_day(ValueRead& read, PaperContext& paper) {
    CertificateQuestion question;
    question.kind = QuestionKind::which_value;
    question.key = question_key(question.kind, read.value.means + ":" + read.value.where);
    question.words = fmt::format("\"{}\" names a month. Which day is meant (year-month-day)?",
                                 excerpt(read.value.source_text));
    if (const auto typed = paper.questions.answer(question.key)) {
        const auto day = read_day(read.value.name, *typed);
        if (day && *day) {
            read.value.value = iso(**day);
            return;
        }
    }
    ask_of(read, std::move(question), paper);
}

void read_day_of(const LaidOutValue& laid_out, ValueRead& read, PaperContext& paper) {
    const auto printed = read_printed_day(laid_out.text);
    switch (printed.kind) {
    case PrintedDay::Kind::day:
        read.value.value = iso(*printed.day);
        return;
    case PrintedDay::Kind::two_readings:
        if (paper.dates == DateOrder::not_known)
            ask_order(printed, read, paper);
        else
            read.value.value = iso(paper.dates == DateOrder::day_first ? *printed.day : *printed.other);
        return;
    case PrintedDay::Kind::month:
        ask_day(read, paper);
        return;
    case PrintedDay::Kind::missing:
        read.is_nothing = true;
        return;
    case PrintedDay::Kind::none:
        break;
    }
    read.refusals.push_back(
        {field_of(read.value),
         fmt::format("\"{}\" was read; a day such as 2026-11-25 or 25.11.2026 is expected",
                     excerpt(laid_out.text)),
         "See the certificate, and correct the file"});
}

/// ="0012" is how some programs keep a spreadsheet from dropping the zeros.
std::string unwrapped(std::string_view text) {
    if (text.size() > 3 && text.starts_with("=\"") && text.ends_with('"'))
        text = text.substr(2, text.size() - 3);
    return std::string(text);
}

/// 1E+05, 1,2E5: what a spreadsheet makes of a lot number that it takes for a figure.
bool looks_bent(std::string_view code) {
    const auto mark = code.find_first_of("eE");
    if (mark == std::string_view::npos || mark == 0 || code.size() - mark > 5)
        return false;
    const auto is_of = [](std::string_view text, std::string_view signs) {
        return !text.empty() && text.find_first_not_of(signs) == std::string_view::npos;
    };
    return is_of(code.substr(0, mark), "0123456789.,") && is_of(code.substr(mark + 1), "0123456789+-");
}

/// The plant's name for a mill or a flour: as learned, as the plant writes it, or as a person says.
void read_name_of(LotFact fact, ValueRead& read, const std::string& text, PaperContext& paper) {
    const auto& names = fact == LotFact::mill ? paper.request.mills : paper.request.flours;
    const auto compared = folded(text);
    for (const auto& learned : paper.mapping.names)
        if (learned.field == key_of(fact) && learned.name == compared) {
            read.value.value = learned.means;
            return;
        }
    const auto same =
        std::find_if(names.begin(), names.end(), [&](const auto& name) { return folded(name) == compared; });
    if (same != names.end() || names.empty()) {
        read.value.value = same != names.end() ? *same : text;
        return;
    }
    CertificateQuestion question;
    question.kind = QuestionKind::which_name;
    question.key = question_key(question.kind, fmt::format("{}:{}", key_of(fact), compared));
    question.words =
        fmt::format("Which {} is \"{}\"?", fact == LotFact::mill ? "mill" : "flour", excerpt(text));
    for (const auto& name : names)
        question.choices.push_back({name, name});
    ask_of(read, std::move(question), paper);
}

/// Refused where it is known that the paper must be of another.
void check_must_be(const std::string& expected, const char* kind, ValueRead& read) {
    if (expected.empty() || read.value.value.empty() || same_words(expected, read.value.value))
        return;
    read.refusals.push_back({field_of(read.value),
                             fmt::format("the certificate is of {} \"{}\"; \"{}\" is expected", kind,
                                         excerpt(read.value.value), excerpt(expected)),
                             "Choose the certificate that belongs to it"});
}

} // namespace

ValueRead read_fact(const LaidOutValue& laid_out, const Meaning& meaning, PaperContext& paper) {
    ValueRead read;
    read.value = beside_source(laid_out, meaning, paper);
    const LotFact fact = *meaning.fact;
    if (!laid_out.trouble.empty()) {
        read.refusals.push_back({field_of(read.value), laid_out.trouble + " stands there",
                                 "Save the file again with its results, or correct the cell"});
        return read;
    }
    const std::string text(trimmed(laid_out.text));
    read.is_nothing = text.empty();
    if (read.is_nothing)
        return read;
    if (is_day(fact)) {
        read_day_of(laid_out, read, paper);
    } else if (fact == LotFact::weight || fact == LotFact::bag_weight || fact == LotFact::flour_temperature ||
               fact == LotFact::price_per_tonne) {
        read_measured(laid_out, meaning, paper, read);
    } else if (fact == LotFact::mill || fact == LotFact::flour) {
        read_name_of(fact, read, text, paper);
        check_must_be(fact == LotFact::mill ? paper.request.must_be.mill : paper.request.must_be.flour,
                      fact == LotFact::mill ? "the mill" : "the flour", read);
    } else {
        read.value.value = fact == LotFact::lot_number ? unwrapped(text) : text;
        if (fact == LotFact::lot_number && looks_bent(read.value.value))
            read.value.note =
                "looks as if a spreadsheet had turned it into a figure; compare it with the label";
    }
    return read;
}

} // namespace mellowbin::exchange
