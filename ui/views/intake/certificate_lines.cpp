#include "ui/views/common/figure_fields.h"
#include "ui/views/common/words.h"
#include "ui/views/intake/certificate_reading.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using app::CertificateLabel;
using app::CertificateModel;
using ui::Role;

constexpr float side_by_side = 54; ///< ems, from which the three stand beside each other
constexpr const char* as_printed = "as printed";

/// "Basis", "Decimal mark": a question in a word, as a field is called.
std::string field_of(const std::string& kind) {
    for (const auto& [key, name] : {std::pair<std::string_view, std::string_view>{"meaning", "Means"},
                                    {"unit", "Unit"},
                                    {"basis", "Basis"},
                                    {"method", "Method"},
                                    {"decimal_mark", "Decimal mark"},
                                    {"date_order", "Order of days"},
                                    {"which_value", "Which value"},
                                    {"which_name", "Which name"}})
        if (kind == key)
            return std::string(name);
    return "Answer";
}

void source(const CertificateLabel& label) {
    ui::text(label.where, {.role = Role::quiet});
    ui::paragraph(label.shown.empty() ? label.line : label.shown, {.weight = ui::Weight::bold});
    ui::paragraph(label.text);
    if (label.more > 0)
        ui::hint(fmt::format("and {} more", label.more));
}

/// "14 % moisture, ICC 110, N x 5.7"
std::string how(const CertificateLabel& label) {
    std::string words;
    for (const auto& said : {label.basis, label.method,
                             label.nitrogen_factor.empty() ? std::string() : "N x " + label.nitrogen_factor})
        if (!said.empty())
            words += (words.empty() ? "" : ", ") + said;
    return words;
}

const app::LabelSaid* said_of(const CertificateForm& form, const std::string& label) {
    const auto at = std::find_if(form.labels.begin(), form.labels.end(),
                                 [&](const app::LabelSaid& one) { return one.label == label; });
    return at == form.labels.end() ? nullptr : &*at;
}

void understood(CertificateForm& form, const CertificateLabel& label) {
    if (label.is_left_out)
        ui::status(Role::quiet, label.note.empty() ? std::string("Left out") : "Left out: " + label.note);
    else if (label.name.empty())
        ui::status(Role::mind, "Not understood");
    else
        ui::paragraph(
            fmt::format("{} {} {}", label.name, label.value.empty() ? "–" : label.value, label.unit),
            {.weight = ui::Weight::bold});
    if (const auto words = how(label); !words.empty())
        ui::paragraph(words);
    if (!label.is_left_out && !label.note.empty())
        ui::hint(label.note);
    if (said_of(form, label.key))
        ui::hint("as you said");
    else if (label.is_learned)
        ui::hint("as this mill writes");
    if (!label.key.empty() && form.changing != label.key &&
        ui::button("Change", {.kind = ui::ButtonKind::quiet}))
        form.changing = label.key;
}

void give(CertificateForm& form, const app::CertificateAsked& asked, std::string answer,
          std::string answer_words) {
    std::erase_if(form.answers, [&](const AnswerGiven& one) { return one.question == asked.key; });
    form.answers.push_back({asked.key, asked.words, std::move(answer), std::move(answer_words)});
    std::erase_if(form.typing, [&](const AnswerGiven& one) { return one.question == asked.key; });
}

/// True when it was answered.
bool ask(CertificateForm& form, const app::CertificateAsked& asked) {
    ui::status(Role::mind, asked.times > 1
                               ? fmt::format("{} ({} values wait for it)", asked.words, asked.times)
                               : asked.words);
    const auto name = field_of(asked.kind);
    if (asked.choices.empty()) {
        auto& text = form.typed(asked.key);
        const auto edited = ui::text_field({.label = name,
                                            .hint = "type it, then Enter",
                                            .width = 14_em,
                                            .label_place = ui::LabelPlace::hidden,
                                            .enter = ui::Enter::entered},
                                           text);
        if (!(edited.entered || edited.left) || text.empty())
            return false;
        const auto typed = text;
        give(form, asked, typed, typed);
        return true;
    }
    std::vector<std::string> words;
    for (const auto& choice : asked.choices)
        words.push_back(choice.words);
    int chosen = -1;
    if (!ui::choice({.label = name, .label_place = ui::LabelPlace::hidden}, words, chosen))
        return false;
    const auto& choice = asked.choices[static_cast<std::size_t>(chosen)];
    give(form, asked, choice.key, choice.words);
    return true;
}

// What a label means, changed by a person

const app::MeaningChoice* meaning_of(const CertificateModel& certificate, const std::string& key) {
    const auto at = std::find_if(certificate.meanings.begin(), certificate.meanings.end(),
                                 [&](const app::MeaningChoice& one) { return one.key == key; });
    return at == certificate.meanings.end() ? nullptr : &*at;
}

/// One of the meanings. True when another was chosen: then what belonged to the one before goes.
bool choose_meaning(app::LabelSaid& said, const CertificateModel& certificate) {
    std::vector<std::string> names;
    int chosen = -1;
    for (const auto& one : certificate.meanings) {
        if (one.key == said.means)
            chosen = static_cast<int>(names.size());
        names.push_back(one.name);
    }
    if (!ui::choice({.label = "Means", .width = 14_em}, names, chosen))
        return false;
    said = {said.label, certificate.meanings[static_cast<std::size_t>(chosen)].key, "", "", "", ""};
    return true;
}

/// One of the words, or what is printed.
bool choose_words(std::string_view label, std::vector<std::string> words, std::string& chosen_words) {
    words.insert(words.begin(), as_printed);
    const auto at = std::find(words.begin(), words.end(), chosen_words);
    int chosen = chosen_words.empty() || at == words.end() ? 0 : static_cast<int>(at - words.begin());
    if (!ui::choice({.label = label, .width = 10_em}, words, chosen))
        return false;
    chosen_words = chosen == 0 ? std::string() : words[static_cast<std::size_t>(chosen)];
    return true;
}

/// The refusals of this label, each at its field's own name.
Refusals refusals_of(const CertificateForm& form, const std::string& label) {
    const auto begin = label + ": ";
    Refusals own;
    for (auto refusal : form.understanding.refusals)
        if (refusal.field.starts_with(begin)) {
            refusal.field.erase(0, begin.size());
            own.push_back(std::move(refusal));
        }
    return own;
}

/// True when something was said that is to be read anew.
bool change(CertificateForm& form, const CertificateLabel& label, const CertificateModel& certificate,
            const std::vector<std::string>& bases) {
    const auto* before = said_of(form, label.key);
    auto said = before ? *before : label.said;
    const auto refusals = refusals_of(form, label.key);
    bool is_typed = false, is_said = false;
    ui::flow([&] {
        is_said |= choose_meaning(said, certificate);
        const auto* means = meaning_of(certificate, said.means);
        if (!means)
            return;
        if (!means->units.empty())
            is_said |= choose_words("Unit", means->units, said.unit);
        if (means->has_basis)
            is_said |= choose_words("Basis", bases, said.basis);
        const auto type = [&](const ui::Edited& edited) {
            is_typed |= edited.changed;
            is_said |= edited.left && before;
        };
        if (means->has_method)
            type(ui::text_field(
                {.label = "Method", .hint = as_printed, .refusals = &refusals, .width = 10_em}, said.method));
        if (means->has_nitrogen_factor)
            type(ui::number_field(
                {.label = "Nitrogen factor", .hint = as_printed, .refusals = &refusals, .width = 7_em},
                said.nitrogen_factor));
    });
    if (is_typed || is_said) {
        std::erase_if(form.labels, [&](const app::LabelSaid& one) { return one.label == label.key; });
        form.labels.push_back(said);
    }
    ui::flow([&] {
        if (ui::button("Done", {.kind = ui::ButtonKind::quiet})) {
            form.changing.clear();
            is_said |= said_of(form, label.key) != nullptr;
        }
        if (said_of(form, label.key) && ui::button("As it was understood", {.kind = ui::ButtonKind::quiet})) {
            std::erase_if(form.labels, [&](const app::LabelSaid& one) { return one.label == label.key; });
            form.changing.clear();
            is_said = true;
        }
    });
    return is_said;
}

bool line(CertificateForm& form, const CertificateLabel& label, const CertificateModel& certificate,
          const std::vector<std::string>& bases) {
    bool is_said = false;
    const auto asks = [&] {
        for (const auto place : label.asked)
            ui::scope(certificate.asked[place].key, [&] { is_said |= ask(form, certificate.asked[place]); });
        if (form.changing == label.key && !label.key.empty())
            is_said |= change(form, label, certificate, bases);
    };
    const auto wide = ui::width_left().ems;
    if (wide < side_by_side) {
        source(label);
        understood(form, label);
        asks();
    } else {
        ui::flow([&] {
            ui::stack({wide * 0.27F}, [&] { source(label); });
            ui::stack({wide * 0.27F}, [&] { understood(form, label); });
            ui::stack({wide * 0.42F}, asks);
        });
    }
    ui::rule();
    return is_said;
}

void heads() {
    const auto wide = ui::width_left().ems;
    if (wide < side_by_side)
        return;
    ui::flow([&] {
        for (const auto& [share, words] :
             {std::pair<float, const char*>{0.27F, "On the paper"}, {0.27F, "Understood"}, {0.42F, "Asked"}})
            ui::stack({wide * share}, [&, head = words] { ui::text(head, {.role = Role::quiet}); });
    });
    ui::rule();
}

} // namespace

bool certificate_lines(CertificateForm& form, const CertificateModel& certificate,
                       const std::vector<std::string>& bases) {
    heads();
    bool is_said = false;
    for (std::size_t i = 0; i < certificate.labels.size(); ++i) {
        const auto& label = certificate.labels[i];
        const auto name = label.key.empty() ? fmt::format("line {}", i) : label.key;
        ui::scope(name, [&] { is_said |= line(form, label, certificate, bases); });
    }
    return is_said;
}

} // namespace mellowbin::views
