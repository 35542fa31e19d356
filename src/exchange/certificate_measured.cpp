#include "core/decimal.h"
#include "core/typed_text.h"
#include "exchange/certificate_figure.h"
#include "exchange/certificate_phrases.h"
#include "exchange/certificate_value.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::exchange {
namespace {

using Kind = PrintedFigure::Kind;

std::string names_of(const std::vector<const UnitWords*>& units) {
    std::string names;
    for (const auto* unit : units)
        names += (names.empty() ? "" : ", ") + unit->key;
    return names.empty() ? "none" : names;
}

/// Units that stand at a value, the nearest first: behind the figure, in a field of its own, in the label.
struct StatedUnit {
    std::string text;
    const char* at; ///< in words
};

class Measured {
public:
    Measured(const LaidOutValue& laid_out, const Meaning& meaning, PaperContext& paper, ValueRead& read)
        : laid_out_(laid_out), meaning_(meaning), paper_(paper), read_(read),
          label_(paper.labels.at(laid_out.label)) {}

    void take() {
        if (!laid_out_.trouble.empty()) {
            refuse(laid_out_.trouble + " stands there",
                   "Save the file again with its results, or correct the cell");
            return;
        }
        auto figure = read_printed_figure(laid_out_.text);
        if (!is_figure(figure))
            return;
        auto behind = take_phrases(figure.rest);
        read_.value.basis = behind.basis;
        read_.value.method = behind.method;
        read_.value.note = figure.note.empty() ? "" : figure.note + " is not kept";
        const auto text = decided(figure);
        const auto* unit = unit_of(behind.rest);
        if (!text || !read_.refusals.empty() || (!unit && !own_unit(meaning_).empty()) || has_open_unit_)
            return;
        put(*text, unit);
    }

private:
    void refuse(std::string what, std::string remedy) {
        read_.refusals.push_back({field_of(read_.value), std::move(what), std::move(remedy)});
    }

    bool is_figure(const PrintedFigure& figure) {
        switch (figure.kind) {
        case Kind::figure:
        case Kind::two_readings:
            return true;
        case Kind::missing:
            read_.is_nothing = folded(laid_out_.text).empty();
            read_.left_out = read_.is_nothing ? "" : "says that nothing was measured";
            return false;
        case Kind::limit:
            read_.left_out = "is a limit or a range, and no figure of this lot";
            return false;
        case Kind::none:
            break;
        }
        refuse(fmt::format("\"{}\" was read; a number such as 11.85 or 11,85 is expected",
                           excerpt(laid_out_.text)),
               "See the certificate, or leave the label out if it means something else");
        return false;
    }

    /// The figure with a decimal point; nothing while it may be one of two.
    std::optional<std::string> decided(const PrintedFigure& figure) {
        const bool is_plain = laid_out_.is_number || (paper_.is_own_file && label_.is_own);
        if (figure.kind == Kind::figure || is_plain)
            return figure.value;
        if (paper_.decimals != DecimalMark::not_known)
            return paper_.decimals == figure.mark ? figure.value : figure.other;
        const bool is_point = figure.mark == DecimalMark::point;
        CertificateQuestion question;
        question.kind = QuestionKind::decimal_mark;
        question.key = question_key(question.kind, "");
        question.words =
            fmt::format("Is \"{}\" {} or {}?", excerpt(laid_out_.text), figure.value, figure.other);
        question.choices = {
            {std::string(key_of(figure.mark)),
             fmt::format("{}: the {} is the decimal mark", figure.value, is_point ? "point" : "comma")},
            {std::string(key_of(is_point ? DecimalMark::comma : DecimalMark::point)),
             fmt::format("{}: the {} parts thousands", figure.other, is_point ? "point" : "comma")}};
        ask_of(read_, std::move(question), paper_);
        return {};
    }

    /// The one unit that is stated or learned; null where there is none, it is refused, or it is asked for.
    const UnitWords* unit_of(const std::string& behind) {
        const std::array stated{StatedUnit{behind, "behind the figure"},
                                StatedUnit{laid_out_.unit, "beside it"},
                                StatedUnit{label_.unit, "in its label"}};
        const UnitWords* unit = nullptr;
        for (const auto& [text, at] : stated) {
            if (trimmed(text).empty() || (folded(text).empty() && units_named(text).empty()))
                continue;
            if (own_unit(meaning_).empty() && units_named(text).empty() && text != behind &&
                meaning_.property)
                continue; // "index"
            auto fitting = fitting_units(meaning_, text);
            if (fitting.empty()) {
                refuse(fmt::format("the unit \"{}\" was read {}; one of these is expected: {}", excerpt(text),
                                   at, names_of(units_for(meaning_))),
                       "See the certificate, or say that the label means something else");
                return nullptr;
            }
            if (fitting.size() > 1) {
                if (const auto* learned = learned_unit(fitting); learned)
                    fitting = {learned};
                else
                    return ask_unit(fitting,
                                    fmt::format("Which unit is \"{}\" of \"{}\"?", text, label_.text));
            }
            if (unit && unit->factor != fitting.front()->factor) {
                refuse(fmt::format("two units were read, {} and {}", unit->key, fitting.front()->key),
                       "See the certificate which of them holds, and correct the file");
                return nullptr;
            }
            unit = unit ? unit : fitting.front();
        }
        if (unit || own_unit(meaning_).empty())
            return unit;
        const auto all = units_for(meaning_);
        if (const auto* learned = learned_unit(all))
            return learned;
        return ask_unit(all, fmt::format("In which unit are the figures of \"{}\"?", label_.text));
    }

    [[nodiscard]] const UnitWords* learned_unit(const std::vector<const UnitWords*>& of) const {
        const auto* learned = label_in(paper_.mapping, label_.folded);
        if (!learned)
            return nullptr;
        const auto at = std::find_if(of.begin(), of.end(),
                                     [&](const UnitWords* unit) { return unit->key == learned->unit; });
        return at == of.end() ? nullptr : *at;
    }

    const UnitWords* ask_unit(const std::vector<const UnitWords*>& units, std::string words) {
        CertificateQuestion question;
        question.kind = QuestionKind::unit;
        question.key = question_key(question.kind, label_.folded);
        question.words = std::move(words);
        for (const auto* unit : units)
            question.choices.push_back({unit->key, unit->key});
        ask_of(read_, std::move(question), paper_);
        has_open_unit_ = true;
        return nullptr;
    }

    void put(const std::string& text, const UnitWords* unit) {
        read_.value.value = text;
        read_.value.unit = own_unit(meaning_);
        if (!unit)
            return;
        if (own_unit(meaning_).empty()) { // of a temperature: it keeps its own
            if (!meaning_.property)
                read_.value.unit = unit->key;
            return;
        }
        const double factor = factor_to_own(meaning_, *unit);
        if (factor == 1)
            return;
        const auto number = read_decimal("", text);
        if (!number || !*number) {
            refuse(fmt::format("\"{}\" was read, which has more digits than a figure", excerpt(text)),
                   "See the certificate");
            read_.value.value.clear();
            return;
        }
        read_.value.value = as_typed(**number * factor);
        const auto restated =
            fmt::format("{} {} is {} {}", text, unit->key, read_.value.value, read_.value.unit);
        read_.value.note += (read_.value.note.empty() ? "" : "; ") + restated;
    }

    const LaidOutValue& laid_out_;
    const Meaning& meaning_;
    PaperContext& paper_;
    ValueRead& read_;
    const CertificateLabel& label_;
    bool has_open_unit_ = false;
};

} // namespace

void read_measured(const LaidOutValue& laid_out, const Meaning& meaning, PaperContext& paper,
                   ValueRead& read) {
    Measured(laid_out, meaning, paper, read).take();
}

} // namespace mellowbin::exchange
