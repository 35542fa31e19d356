#include "ui/views/intake/delivery.h"

#include <algorithm>
#include <set>

namespace mellowbin::views {
namespace {

/// The fields of a lot that are one text each, but for its number.
constexpr std::string LotDraft::*texts[] = {
    &LotDraft::mill,          &LotDraft::flour,        &LotDraft::delivery_note,
    &LotDraft::milled_on,     &LotDraft::delivered_on, &LotDraft::best_before,
    &LotDraft::mass_kg,       &LotDraft::bag_kg,       &LotDraft::price_per_tonne,
    &LotDraft::place,         &LotDraft::certified_on, &LotDraft::delivered_c,
    &LotDraft::accept_reason,
};

/// What a certificate says of the lot and is not typed there: what a person typed or scanned stays.
void fill(LotDraft& draft, const LotDraft& read) {
    for (const auto text : texts)
        if ((draft.*text).empty())
            draft.*text = read.*text;
    std::set<Property> typed;
    for (const auto& figure : draft.figures)
        if (!figure.value.empty())
            typed.insert(figure.property);
    std::erase_if(draft.figures, [](const FigureDraft& figure) { return figure.value.empty(); });
    for (const auto& figure : read.figures)
        if (!typed.contains(figure.property))
            draft.figures.push_back(figure);
    if (draft.mill_oxidant.empty()) {
        draft.mill_oxidant = read.mill_oxidant;
        draft.mill_oxidant_ppm = read.mill_oxidant_ppm;
        draft.further_additions = read.further_additions;
    }
    draft.certificate_source = read.certificate_source;
    draft.certificate_place = read.certificate_place;
}

} // namespace

void Delivery::join(const std::vector<LotDraft>& drafts) {
    if (drafts.empty())
        return;
    std::erase_if(lines_, [](const auto& line) { return is_untouched(line.draft); });
    std::int64_t first = 0;
    for (const auto& draft : drafts) {
        const auto known = std::find_if(lines_.begin(), lines_.end(), [&](const DeliveryLine& line) {
            return !draft.code.empty() && line.draft.code == draft.code && !line.is_from_file;
        });
        auto& line = known == lines_.end() ? add(draft) : *known;
        if (known != lines_.end())
            fill(line.draft, draft);
        line.gather_basis();
        line.all_left = line.is_from_file = true;
        line.is_checked = false;
        if (first == 0)
            first = line.number;
    }
    at_hand_ = first;
}

} // namespace mellowbin::views
