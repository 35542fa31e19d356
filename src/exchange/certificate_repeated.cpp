#include "core/decimal.h"
#include "core/typed_text.h"
#include "exchange/certificate_lots.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

namespace mellowbin::exchange {
namespace {

using Group = std::vector<std::size_t>; ///< of values, in the order of the paper

bool are_the_same(const UnderstoodValue& a, const UnderstoodValue& b) {
    const auto number_a = read_decimal("", a.value);
    const auto number_b = read_decimal("", b.value);
    const bool are_numbers = number_a && number_b && *number_a && *number_b;
    return (are_numbers ? **number_a == **number_b : same_words(a.value, b.value)) && a.basis == b.basis &&
           same_words(a.nitrogen_factor, b.nitrogen_factor);
}

/// Values of a lot that came under one meaning, where there are several.
std::vector<Group> repeated_in(const std::vector<KeptValue>& values) {
    std::map<std::pair<std::size_t, std::string>, Group> all;
    for (std::size_t i = 0; i < values.size(); ++i)
        if (!values[i].value.means.empty() && values[i].value.source_text != "")
            all[{values[i].value.lot, values[i].value.means}].push_back(i);
    std::vector<Group> repeated;
    for (auto& [key, group] : all)
        if (group.size() > 1)
            repeated.push_back(std::move(group));
    return repeated;
}

class Settling {
public:
    Settling(std::vector<KeptValue>& values, PaperContext& paper, CertificateMapping& learned)
        : values_(values), paper_(paper), learned_(learned) {}

    void settle(const Group& group) {
        Group different;
        for (const auto i : group) {
            const bool is_there = std::any_of(different.begin(), different.end(), [&](std::size_t other) {
                return are_the_same(values_[i].value, values_[other].value);
            });
            if (is_there)
                dropped_.insert(i);
            else
                different.push_back(i);
        }
        if (different.size() < 2)
            return;
        if (have_own_labels(different))
            choose_label(different);
        else
            choose_value(different);
    }

    void drop() {
        std::vector<KeptValue> left;
        for (std::size_t i = 0; i < values_.size(); ++i)
            if (!dropped_.contains(i))
                left.push_back(std::move(values_[i]));
        values_ = std::move(left);
    }

private:
    [[nodiscard]] const CertificateLabel& label_of(std::size_t i) const {
        return paper_.labels.at(values_[i].label);
    }

    [[nodiscard]] bool have_own_labels(const Group& group) const {
        std::set<std::string> labels;
        for (const auto i : group)
            labels.insert(label_of(i).folded);
        return labels.size() == group.size();
    }

    /// Two columns or lines of one property: asked once for all lots, and kept with the mill.
    void choose_label(const Group& group) {
        std::string labels = values_[group.front()].value.means;
        for (const auto i : group)
            labels += "|" + label_of(i).folded;
        CertificateQuestion question = about(group, labels);
        for (const auto i : group)
            question.choices.push_back(
                {label_of(i).folded, fmt::format("{} ({})", label_of(i).text, shown(i))});
        const auto answer = paper_.questions.answer(question.key);
        const bool is_one = answer && std::any_of(group.begin(), group.end(), [&](std::size_t i) {
                                return label_of(i).folded == *answer;
                            });
        if (!is_one) {
            ask(group, std::move(question));
            return;
        }
        for (const auto i : group) {
            if (label_of(i).folded == *answer)
                continue;
            dropped_.insert(i);
            if (!label_in(learned_, label_of(i).folded))
                learned_.labels.push_back(
                    {label_of(i).folded, label_of(i).text, std::string(left_out_key), "", "", "", ""});
        }
    }

    /// One label twice: asked for this lot alone.
    void choose_value(const Group& group) {
        CertificateQuestion question =
            about(group, values_[group.front()].value.means + ":" + values_[group.front()].value.where);
        for (const auto i : group)
            question.choices.push_back(
                {values_[i].value.where, fmt::format("{}: {}", values_[i].value.where, shown(i))});
        const auto answer = paper_.questions.answer(question.key);
        const auto chosen = std::find_if(group.begin(), group.end(), [&](std::size_t i) {
            return answer && values_[i].value.where == *answer;
        });
        if (chosen == group.end()) {
            ask(group, std::move(question));
            return;
        }
        for (const auto i : group)
            if (i != *chosen)
                dropped_.insert(i);
    }

    [[nodiscard]] std::string shown(std::size_t i) const {
        const auto& value = values_[i].value;
        return value.basis.empty() ? value.source_text : value.source_text + ", " + value.basis;
    }

    CertificateQuestion about(const Group& group, const std::string& key) const {
        const auto& first = values_[group.front()].value;
        CertificateQuestion question;
        question.kind = QuestionKind::which_value;
        question.key = question_key(question.kind, key);
        question.means = first.means;
        question.where = first.where;
        question.source_label = first.source_label;
        question.source_text = first.source_text;
        question.words = fmt::format("{} stands there {} times. Which holds?", first.name, group.size());
        return question;
    }

    void ask(const Group& group, CertificateQuestion question) {
        for (const auto i : group)
            values_[i].value.questions.push_back(question.key);
        paper_.questions.ask(std::move(question));
    }

    std::vector<KeptValue>& values_;
    PaperContext& paper_;
    CertificateMapping& learned_;
    std::set<std::size_t> dropped_;
};

} // namespace

void settle_repeated(std::vector<KeptValue>& values, PaperContext& paper, CertificateMapping& learned) {
    Settling settling(values, paper, learned);
    for (const auto& group : repeated_in(values))
        settling.settle(group);
    settling.drop();
}

} // namespace mellowbin::exchange
