#include "app/models/certificate.h"

#include "app/book/book.h"
#include "app/book/certificate_at_hand.h"
#include "app/book/mill_words.h"
#include "exchange/certificate_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace mellowbin::app {
namespace {

using namespace exchange;

MeaningChoice choice_of(const Meaning& meaning) {
    MeaningChoice choice{meaning.key, meaning.name, {}, false, false, false};
    for (const auto* unit : units_for(meaning))
        choice.units.push_back(unit->key);
    if (meaning.property) {
        choice.has_basis = traits(*meaning.property).has_basis;
        choice.has_method = true;
        choice.has_nitrogen_factor = *meaning.property == Property::protein;
    }
    return choice;
}

CertificateAsked asked_of(const CertificateQuestion& question) {
    CertificateAsked asked;
    asked.key = question.key;
    asked.label = folded(question.source_label);
    asked.kind = key_of(question.kind);
    asked.where = question.where;
    asked.text = question.source_text;
    asked.words = question.words;
    asked.times = question.times;
    for (const auto& choice : question.choices)
        asked.choices.push_back({choice.key, choice.words});
    return asked;
}

/// What a person begins with who changes what the label means.
LabelSaid said_of(const std::string& label, const CertificateMapping& mapping, const std::string& means) {
    const auto* known = label_in(mapping, label);
    if (!known)
        return {label, means, "", "", "", ""};
    return {label, known->means, known->unit, known->basis, known->method, known->nitrogen_factor};
}

/// A label a line, in the order of the paper.
class Labels {
public:
    Labels(const CertificateReading& reading, const CertificateMapping& learned, CertificateModel& model)
        : reading_(reading), learned_(learned), model_(model) {}

    void add(const UnderstoodValue& value) {
        auto* label = begin(folded(value.source_label), value.means);
        if (!label)
            return;
        label->where = value.where;
        label->shown = value.source_label;
        label->text = value.source_text;
        label->line = value.source_line;
        label->means = value.means;
        label->name = value.name;
        label->value = value.value;
        label->unit = value.unit;
        label->basis = value.basis;
        label->method = value.method;
        label->nitrogen_factor = value.nitrogen_factor;
        label->note = value.note;
    }

    void add(const LeftOut& left) {
        auto* label = begin(left.folded_label, std::string(not_known_key));
        if (!label)
            return;
        label->where = left.where;
        label->shown = left.label;
        label->text = left.text;
        label->note = left.why;
        label->is_left_out = true;
    }

    void ask(std::size_t question) {
        const auto& asked = model_.asked[question];
        if (const auto at = places_.find(asked.label); at != places_.end()) {
            model_.labels[at->second].asked.push_back(question);
            return;
        }
        auto* label = begin(asked.label, std::string(not_known_key)); // it gave no value yet
        label->where = asked.where;
        label->shown = reading_.questions[question].source_label;
        label->text = asked.text;
        label->asked.push_back(question);
    }

private:
    /// Null where the label has its line already: then it has a value more. What has no label has a line of
    /// its own.
    CertificateLabel* begin(const std::string& key, const std::string& means) {
        if (!key.empty()) {
            const auto [at, is_new] = places_.try_emplace(key, model_.labels.size());
            if (!is_new) {
                ++model_.labels[at->second].more;
                return nullptr;
            }
        }
        auto& label = model_.labels.emplace_back();
        label.key = key;
        label.said = said_of(key, reading_.mapping, means);
        label.is_learned = label_in(learned_, key) != nullptr;
        return &label;
    }

    const CertificateReading& reading_;
    const CertificateMapping& learned_;
    CertificateModel& model_;
    std::map<std::string, std::size_t> places_;
};

std::string words_of_question(const CertificateReading& reading, const std::string& key) {
    const auto at = std::find_if(reading.questions.begin(), reading.questions.end(),
                                 [&](const CertificateQuestion& one) { return one.key == key; });
    return at == reading.questions.end() ? key : at->words;
}

CertificateRow row_of(const CertificateReading& reading, const UnderstoodValue& value) {
    CertificateRow row;
    if (value.lot != every_lot)
        row.lot = value.lot;
    row.where = value.where;
    row.shown = value.source_label;
    row.text = value.source_text;
    row.line = value.source_line;
    row.name = value.name;
    row.value = value.value;
    row.unit = value.unit;
    row.basis = value.basis;
    row.method = value.method;
    row.nitrogen_factor = value.nitrogen_factor;
    row.note = value.note;
    for (const auto& key : value.questions)
        row.asked.push_back(words_of_question(reading, key));
    return row;
}

CertificateLotRow row_of(const CertificateReading& reading, const CertificateLot& lot) {
    CertificateLotRow row{lot.where, lot.draft.code, "", lot.refusals, lot.questions.size()};
    if (!lot.refusals.empty())
        row.words = in_words(lot.refusals.front());
    else if (!lot.questions.empty())
        row.words = words_of_question(reading, lot.questions.front());
    else
        row.words = fmt::format("{} {}{}", lot.draft.figures.size(),
                                lot.draft.figures.size() == 1 ? "figure" : "figures",
                                lot.draft.mass_kg.empty() ? "" : ", " + lot.draft.mass_kg + " kg");
    return row;
}

} // namespace

const std::vector<MeaningChoice>& meaning_choices() {
    static const auto choices = [] {
        std::vector<MeaningChoice> all{{std::string(left_out_key), "Left out", {}, false, false, false}};
        for (const auto& meaning : all_meanings())
            if (meaning.key != left_out_key)
                all.push_back(choice_of(meaning));
        return all;
    }();
    return choices;
}

void make_certificate(const Book& book, const CertificateAtHand& at_hand, CertificateModel& model) {
    CertificateModel made;
    made.is_reading = at_hand.is_running();
    made.is_open = at_hand.is_open;
    made.opened = at_hand.opened;
    made.made = at_hand.made;
    made.name = at_hand.source.name;
    if (const Mill* mill = book.mill(at_hand.mill))
        made.mill = mill->name;
    if (made.is_open) {
        const auto& reading = at_hand.reading;
        const auto learned = at_hand.mill.is_known() ? mapping_of(book, at_hand.mill) : CertificateMapping();
        made.troubles = reading.troubles;
        made.notes = reading.notes;
        made.meanings = meaning_choices();
        Labels labels(reading, learned, made);
        for (const auto& value : reading.values) {
            labels.add(value);
            made.rows.push_back(row_of(reading, value));
        }
        for (const auto& left : reading.left_out)
            labels.add(left);
        for (const auto& question : reading.questions) {
            made.asked.push_back(asked_of(question));
            labels.ask(made.asked.size() - 1);
        }
        for (const auto& lot : reading.lots)
            made.lots.push_back(row_of(reading, lot));
        made.good = static_cast<std::size_t>(std::count_if(
            made.lots.begin(), made.lots.end(), [](const CertificateLotRow& lot) { return lot.is_good(); }));
        if (!reading.troubles.empty())
            made.good = 0;
        if (at_hand.mill.is_known())
            made.to_learn = learned_from(reading.mapping, book, at_hand.mill).size();
    }
    model = std::move(made);
}

} // namespace mellowbin::app
