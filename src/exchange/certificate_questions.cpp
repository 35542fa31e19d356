#include "exchange/certificate_questions.h"

#include "core/names.h"
#include "core/typed_text.h"

#include <algorithm>
#include <array>

namespace mellowbin::exchange {
namespace {

using enum QuestionKind;

constexpr std::array kinds{
    Named<QuestionKind>{meaning, "meaning", ""},
    Named<QuestionKind>{unit, "unit", ""},
    Named<QuestionKind>{basis, "basis", ""},
    Named<QuestionKind>{method, "method", ""},
    Named<QuestionKind>{decimal_mark, "decimal_mark", ""},
    Named<QuestionKind>{date_order, "date_order", ""},
    Named<QuestionKind>{which_value, "which_value", ""},
    Named<QuestionKind>{which_name, "which_name", ""},
};

/// The key's kind and what it is about.
std::pair<std::optional<QuestionKind>, std::string> parts_of(std::string_view key) {
    const auto colon = std::min(key.find(':'), key.size());
    return {from_key(kinds, key.substr(0, colon)), std::string(key.substr(std::min(colon + 1, key.size())))};
}

LabelMeaning& label_of(CertificateMapping& mapping, const std::string& label) {
    const auto at = std::find_if(mapping.labels.begin(), mapping.labels.end(),
                                 [&](const LabelMeaning& known) { return known.label == label; });
    if (at != mapping.labels.end())
        return *at;
    return mapping.labels.emplace_back(LabelMeaning{label, label, "", "", "", "", ""});
}

/// "flour:weizenmehl type 550" -> that flour's name.
void take_name(CertificateMapping& mapping, const std::string& about, const std::string& answer) {
    const auto colon = std::min(about.find(':'), about.size());
    NameMeaning name{about.substr(0, colon), about.substr(std::min(colon + 1, about.size())), "", answer};
    name.shown = name.name;
    const auto at = std::find_if(mapping.names.begin(), mapping.names.end(), [&](const NameMeaning& known) {
        return known.field == name.field && known.name == name.name;
    });
    if (at != mapping.names.end())
        at->means = answer;
    else
        mapping.names.push_back(std::move(name));
}

} // namespace

std::string_view key_of(QuestionKind kind) { return row_of(kinds, kind).key; }

std::string question_key(QuestionKind kind, std::string_view about) {
    return std::string(key_of(kind)) + ":" + std::string(about);
}

QuestionBook::QuestionBook(std::span<const CertificateAnswer> answers) {
    for (const auto& given : answers)
        if (!trimmed(given.answer).empty())
            answers_[given.question] = trimmed(given.answer);
}

std::optional<std::string> QuestionBook::answer(std::string_view key) const {
    const auto at = answers_.find(key);
    if (at == answers_.end())
        return {};
    return at->second;
}

void QuestionBook::ask(CertificateQuestion question) {
    const auto [at, is_new] = places_.try_emplace(question.key, questions_.size());
    if (is_new)
        questions_.push_back(std::move(question));
    else
        ++questions_[at->second].times;
}

CertificateMapping with_answers(CertificateMapping known, std::span<const CertificateAnswer> answers) {
    for (const auto& given : answers) {
        const std::string answer(trimmed(given.answer));
        const auto [kind, about] = parts_of(given.question);
        if (!kind || answer.empty())
            continue;
        switch (*kind) {
        case meaning:
            label_of(known, about).means = answer;
            break;
        case unit:
            label_of(known, about).unit = answer;
            break;
        case basis:
            label_of(known, about).basis = answer;
            break;
        case method:
            label_of(known, about).method = answer;
            break;
        case decimal_mark:
            known.decimals = decimal_mark_from_key(answer);
            break;
        case date_order:
            known.dates = date_order_from_key(answer);
            break;
        case which_name:
            take_name(known, about, answer);
            break;
        case which_value: // of this file alone
            break;
        }
    }
    return known;
}

} // namespace mellowbin::exchange
