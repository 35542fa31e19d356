#include "exchange/certificate_sheet.h"

#include "core/typed_text.h"
#include "exchange/certificate_figure.h"
#include "exchange/certificate_lots.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::exchange {
namespace {

/// A label that may mean two things means the one whose units its figures are in, where that is one alone.
std::optional<Meaning> meant_by_unit(const CertificateLabel& label, const LaidOutValue& value) {
    const auto figure = read_printed_figure(value.text);
    std::optional<Meaning> found;
    for (const auto& key : label.means) {
        const auto meaning = meaning_from_key(key);
        if (!meaning)
            continue;
        const auto fits = [&](std::string_view unit) { return !fitting_units(*meaning, unit).empty(); };
        if (!fits(figure.rest) && !fits(value.unit) && !fits(label.unit))
            continue;
        if (found)
            return {};
        found = meaning;
    }
    return found;
}

void ask_meaning(const LaidOutValue& laid_out, const CertificateLabel& label, ValueRead& read,
                 PaperContext& paper) {
    CertificateQuestion question;
    question.kind = QuestionKind::meaning;
    question.key = question_key(question.kind, label.folded);
    question.words = fmt::format("What is \"{}\"?", label.text);
    for (const auto& key : label.means)
        if (const auto meaning = meaning_from_key(key))
            question.choices.push_back({key, meaning->name});
    question.choices.push_back({std::string(left_out_key), "Something else: leave it out"});
    read.value = beside_source(laid_out, {"", "", {}, {}, {}}, paper);
    ask_of(read, std::move(question), paper);
}

/// How the paper writes decimals and days, where its own figures and days prove it without a contradiction.
void take_evidence(CertificateLayout& layout, PaperContext& paper) {
    bool has_point = false, has_comma = false, has_day_first = false, has_month_first = false;
    for (const auto& value : layout.values) {
        const auto& label = paper.labels.at(value.label);
        const auto meaning = label.means.empty() ? std::nullopt : meaning_from_key(label.means.front());
        const bool is_text =
            meaning && (meaning->fact == LotFact::lot_number || meaning->fact == LotFact::delivery_note);
        if (value.is_number || is_text)
            continue;
        const auto figure = read_printed_figure(value.text);
        if (figure.kind == PrintedFigure::Kind::figure) {
            has_point = has_point || figure.mark == DecimalMark::point;
            has_comma = has_comma || figure.mark == DecimalMark::comma;
        }
        const auto day = read_printed_day(value.text);
        has_day_first = has_day_first || day.order == DateOrder::day_first;
        has_month_first = has_month_first || day.order == DateOrder::month_first;
    }
    if (paper.decimals == DecimalMark::not_known && has_point != has_comma)
        paper.decimals = has_point ? DecimalMark::point : DecimalMark::comma;
    if (paper.dates == DateOrder::not_known && has_day_first != has_month_first) {
        paper.dates = has_day_first ? DateOrder::day_first : DateOrder::month_first;
        layout.notes.push_back(
            fmt::format("Days are read with the {} first, as others of the file can only be",
                        has_day_first ? "day" : "month"));
    }
}

/// What the mapping keeps of a value: the label, and what was used of it where its values agree.
class Learner {
public:
    explicit Learner(CertificateMapping known) : mapping_(std::move(known)) {}

    void take(const UnderstoodValue& value, const CertificateLabel& label, std::string unit) {
        const LabelMeaning used{label.folded, label.text,   value.means,          std::move(unit),
                                value.basis,  value.method, value.nitrogen_factor};
        const auto at = std::find_if(mapping_.labels.begin(), mapping_.labels.end(),
                                     [&](const LabelMeaning& known) { return known.label == label.folded; });
        if (at == mapping_.labels.end()) {
            fresh_.push_back(label.folded);
            mapping_.labels.push_back(used);
            return;
        }
        const bool is_fresh = std::find(fresh_.begin(), fresh_.end(), label.folded) != fresh_.end();
        at->shown = label.text;
        at->means = used.means;
        agree(at->unit, used.unit, is_fresh);
        agree(at->basis, used.basis, is_fresh);
        agree(at->method, used.method, is_fresh);
        agree(at->nitrogen_factor, used.nitrogen_factor, is_fresh);
    }
    void take_name(const UnderstoodValue& value) {
        const auto name = folded(value.source_text);
        const auto at =
            std::find_if(mapping_.names.begin(), mapping_.names.end(), [&](const NameMeaning& known) {
                return known.field == value.means && known.name == name;
            });
        if (at == mapping_.names.end())
            mapping_.names.push_back({value.means, name, value.source_text, value.value});
        else
            at->shown = value.source_text;
    }
    [[nodiscard]] CertificateMapping& mapping() { return mapping_; }

private:
    /// Of a label first seen on this paper, what differs from lot to lot is not learned; what a person said
    /// stays.
    static void agree(std::string& known, const std::string& used, bool is_fresh) {
        if (known.empty() && !is_fresh)
            known = used;
        else if (is_fresh && known != used)
            known.clear();
    }
    CertificateMapping mapping_;
    std::vector<std::string> fresh_;
};

class Understanding {
public:
    Understanding(std::span<const Sheet> sheets, const CertificateRequest& request)
        : sheets_(sheets), request_(request), mapping_(with_answers(request.known, request.answers)),
          labels_(mapping_), questions_(request.answers), layout_(lay_out(sheets, labels_)),
          learner_(mapping_), paper_{sheets,        request,           mapping_,
                                     labels_,       questions_,        layout_.is_own_file,
                                     layout_.basis, mapping_.decimals, mapping_.dates} {}

    CertificateReading understand() {
        take_evidence(layout_, paper_);
        for (const auto& value : layout_.values)
            take(value);
        settle_repeated(kept_, paper_, learner_.mapping());
        for (const auto& kept : kept_)
            learn(kept);
        reading_.notes = layout_.notes;
        reading_.lots = lots_of(kept_, layout_, paper_);
        keep_only_the_lot();
        leave_out_rest();
        finish();
        return std::move(reading_);
    }

private:
    void take(const LaidOutValue& laid_out) {
        const auto& label = labels_.at(laid_out.label);
        std::optional<Meaning> meaning;
        if (label.state == LabelState::known)
            meaning = meaning_from_key(label.means.front());
        else if (label.state == LabelState::ambiguous)
            meaning = meant_by_unit(label, laid_out);
        ValueRead read;
        if (!meaning) {
            if (laid_out.text.empty() || laid_out.lot == of_every_lot)
                return;
            ask_meaning(laid_out, label, read, paper_);
        } else {
            read = meaning->fact ? read_fact(laid_out, *meaning, paper_)
                                 : read_result(laid_out, *meaning, paper_);
        }
        if (!read.left_out.empty()) {
            reading_.left_out.push_back(
                {read.value.where, label.text, laid_out.text, read.left_out, label.folded});
            return;
        }
        // An empty field of a lot's own column wins over what holds for lots without one.
        if (read.is_nothing && !(meaning && meaning->fact && laid_out.lot != of_every_lot))
            return;
        if (read.is_nothing)
            read.value.source_text.clear();
        kept_.push_back({std::move(read.value), laid_out.label, std::move(read.refusals)});
    }

    void learn(const KeptValue& kept) {
        const auto meaning = meaning_from_key(kept.value.means);
        if (!meaning || kept.value.value.empty() || !kept.refusals.empty())
            return;
        const auto& label = labels_.at(kept.label);
        learner_.take(kept.value, label, used_unit(kept, *meaning));
        const bool is_name = meaning->fact == LotFact::mill || meaning->fact == LotFact::flour;
        if (is_name && folded(kept.value.source_text) != folded(kept.value.value))
            learner_.take_name(kept.value);
    }

    /// The unit as the paper has it: the source says it, for the value is in the meaning's own by now.
    [[nodiscard]] std::string used_unit(const KeptValue& kept, const Meaning& meaning) const {
        const auto& label = labels_.at(kept.label);
        const auto figure = read_printed_figure(kept.value.source_text);
        for (const std::string_view text : {std::string_view(figure.rest), std::string_view(label.unit)}) {
            const auto fitting = fitting_units(meaning, text);
            if (fitting.size() == 1)
                return fitting.front()->key;
        }
        const auto* learned = label_in(mapping_, label.folded);
        return learned ? learned->unit : std::string(own_unit(meaning));
    }

    /// Where the lot is given, only its certificate is read; others of the paper are not its concern.
    void keep_only_the_lot() {
        const std::string& expected = request_.must_be.lot;
        if (expected.empty() || reading_.lots.empty())
            return;
        std::string found;
        std::optional<std::size_t> kept;
        for (std::size_t i = 0; i < reading_.lots.size(); ++i) {
            auto& code = reading_.lots[i].draft.code;
            if (trimmed(code).empty() && reading_.lots.size() == 1)
                code = expected; // the paper names none, and it is known
            found += (found.empty() ? "" : ", ") + (code.empty() ? "none" : code);
            if (same_words(code, expected))
                kept = i;
        }
        if (!kept) {
            reading_.troubles.push_back(
                {"Lot number",
                 fmt::format("the certificate is of {}; {} is expected", excerpt(found), expected),
                 "Choose the certificate of this lot"});
            return;
        }
        if (reading_.lots.size() > 1)
            reading_.notes.push_back(
                fmt::format("The certificate has {} lots; only {} was read", reading_.lots.size(), expected));
        auto lot = std::move(reading_.lots[*kept]);
        std::erase_if(kept_, [&](const KeptValue& value) {
            return value.value.lot != *kept && value.value.lot != every_lot;
        });
        for (auto& value : kept_)
            if (value.value.lot == *kept)
                value.value.lot = 0;
        reading_.lots.clear();
        reading_.lots.push_back(std::move(lot));
    }

    void leave_out_rest() {
        for (const auto& rest : layout_.rest)
            reading_.left_out.push_back({where(sheets_[rest.sheet], rest.row, rest.column), rest.label,
                                         rest.text, rest.why, folded(rest.label)});
    }

    void finish() {
        for (auto& kept : kept_) {
            if (kept.value.lot == every_lot && reading_.lots.empty())
                append(reading_.troubles, kept.refusals);
            if (!kept.value.source_text.empty())
                reading_.values.push_back(std::move(kept.value));
        }
        if (reading_.lots.empty() && reading_.troubles.empty())
            reading_.troubles.push_back({"", "no lot and no result was found that could be read",
                                         "A table is expected with a lot a row, or a line for each property "
                                         "with its value and unit"});
        reading_.questions = questions_.taken();
        reading_.mapping = std::move(learner_.mapping());
        reading_.mapping.dates = paper_.dates;
        reading_.mapping.decimals = paper_.decimals;
    }

    std::span<const Sheet> sheets_;
    const CertificateRequest& request_;
    CertificateMapping mapping_;
    LabelBook labels_;
    QuestionBook questions_;
    CertificateLayout layout_;
    Learner learner_;
    PaperContext paper_;
    std::vector<KeptValue> kept_;
    CertificateReading reading_;
};

} // namespace

CertificateReading understand(std::span<const Sheet> sheets, const CertificateRequest& request) {
    return Understanding(sheets, request).understand();
}

} // namespace mellowbin::exchange
