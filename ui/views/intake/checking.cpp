#include "core/door.h"
#include "core/specification.h"
#include "core/typed_text.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/intake/delivery.h"

#include <algorithm>
#include <array>
#include <map>

namespace mellowbin::views {
namespace {

/// What a person may let be, with a reason.
constexpr std::array doubtful{"Best before", "Certificate date", "Flour temperature", "Moisture"};

bool is_missing_basis(const DeliveryLine& line, const FigureDraft& figure) {
    return traits(figure.property).has_basis && !trimmed(figure.value).empty() &&
           trimmed(figure.basis).empty() && !line.own_basis.contains(figure.property);
}

/// One reason at the basis of all, in place of one at each figure that lacks it.
void ask_basis_once(DeliveryLine& line) {
    if (!trimmed(line.basis).empty())
        return;
    std::string names;
    for (const auto& figure : line.draft.figures) {
        if (!is_missing_basis(line, figure))
            continue;
        const std::string name(traits(figure.property).name);
        const auto before = line.against.size();
        std::erase_if(line.against, [&](const Refusal& refusal) {
            return refusal.field == name && refusal.what.ends_with("without its moisture basis");
        });
        if (line.against.size() != before)
            names += (names.empty() ? "" : ", ") + lower_case(name);
    }
    if (!names.empty())
        line.against.push_back({std::string(basis_of_all), "is empty; needed for " + names,
                                "See the certificate: as is, at 14 % moisture or on dry matter"});
}

/// A missing basis is said once a figure that needs it was left.
bool is_basis_due(const DeliveryLine& line) {
    return std::any_of(line.draft.figures.begin(), line.draft.figures.end(), [&](const auto& figure) {
        return is_missing_basis(line, figure) && line.left.contains(traits(figure.property).name);
    });
}

bool is_reason_due(const DeliveryLine& line) {
    return std::any_of(doubtful.begin(), doubtful.end(), [&](const char* field) {
        return is_refused(line.against, field) && line.left.contains(std::string_view(field));
    });
}

bool is_said(const DeliveryLine& line, const Refusal& refusal) {
    if (line.all_left || line.left.contains(refusal.field))
        return true;
    if (refusal.field == basis_of_all)
        return is_basis_due(line);
    return refusal.field == accept_field && is_reason_due(line);
}

} // namespace

void DeliveryLine::leave(std::string_view field) { left.insert(std::string(field)); }

void DeliveryLine::put(const Refusal& refusal) {
    const bool is_basis =
        refusal.what.ends_with("without its moisture basis") && is_refused(against, basis_of_all);
    if (!is_refused(against, refusal.field) && !is_basis)
        answered.push_back(refusal);
}

void DeliveryLine::change(std::string_view field) {
    std::erase_if(answered, [&](const Refusal& refusal) { return refusal.field == field; });
    if (const auto at = scanned.find(field); at != scanned.end())
        scanned.erase(at);
    if (const auto at = expected.find(field); at != expected.end())
        expected.erase(at);
    is_checked = false;
}

void DeliveryLine::spread_basis() {
    for (auto& figure : draft.figures)
        if (traits(figure.property).has_basis && !own_basis.contains(figure.property))
            figure.basis = basis;
}

void DeliveryLine::gather_basis() {
    std::map<std::string, int> counts;
    for (const auto& figure : draft.figures)
        if (traits(figure.property).has_basis && !figure.basis.empty())
            ++counts[figure.basis];
    const auto most = std::max_element(counts.begin(), counts.end(),
                                       [](const auto& a, const auto& b) { return a.second < b.second; });
    basis = most == counts.end() ? std::string() : most->first;
    own_basis.clear();
    for (const auto& figure : draft.figures)
        if (traits(figure.property).has_basis && !figure.value.empty() && figure.basis != basis)
            own_basis.insert(figure.property);
}

void DeliveryLine::check(const IntakeContext& context) {
    const auto lot = accept(draft, context);
    against = lot ? Refusals{} : lot.refusals();
    ask_basis_once(*this);
    doubts = lot ? what_stands_against(*lot, context) : Refusals{};
    judged.clear();
    const auto flour = std::find_if(context.flours.begin(), context.flours.end(),
                                    [&](const Flour& one) { return one.name == draft.flour; });
    if (lot && flour != context.flours.end())
        judged = judge(lot->certificate, flour->specification);
    refusals.clear();
    for (const auto& refusal : against)
        if (is_said(*this, refusal))
            refusals.push_back(refusal);
    append(refusals, answered);
    is_checked = true;
}

void Delivery::check(const IntakeContext& context) {
    for (auto& line : lines_)
        if (!line.is_checked || line.number == at_hand_)
            line.check(context);
}

void Delivery::check_all_anew() {
    for (auto& line : lines_)
        line.is_checked = false;
}

} // namespace mellowbin::views
