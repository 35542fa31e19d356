#include "ui/views/common/words.h"
#include "ui/views/intake/view.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::views {
namespace {

/// What the next lot of a delivery has in common with this one.
LotDraft remembered(const LotDraft& draft) {
    LotDraft next;
    next.mill = draft.mill;
    next.flour = draft.flour;
    next.place = draft.place;
    next.delivered_on = draft.delivered_on;
    next.delivery_note = draft.delivery_note;
    for (const auto& figure : draft.figures)
        next.figures.push_back({figure.property, "", figure.basis, figure.method, ""});
    return next;
}

/// What is left of the refusal's field after the lot's name; nothing if it names another lot.
std::optional<std::string> field_at_lot(const Refusal& refusal, const LotDraft& draft, std::size_t place) {
    const std::array names{fmt::format("Lot {}: ", draft.code), fmt::format("{} lot: ", ordinal(place)),
                           fmt::format("Lot {} lot: ", ordinal(place))};
    for (const auto& name : names)
        if (refusal.field.starts_with(name))
            return refusal.field.substr(name.size());
    return {};
}

} // namespace

bool is_untouched(const LotDraft& d) {
    const bool has_figure =
        std::any_of(d.figures.begin(), d.figures.end(), [](const auto& f) { return !f.value.empty(); });
    return d.code.empty() && d.mass_kg.empty() && d.bag_kg.empty() && d.milled_on.empty() &&
           d.best_before.empty() && d.certified_on.empty() && d.delivered_c.empty() &&
           d.accept_reason.empty() && d.price_per_tonne.empty() && d.mill_oxidant.empty() &&
           d.mill_oxidant_ppm.empty() && d.further_additions.empty() && !has_figure;
}

Delivery::Delivery() { at_hand_ = add({}).number; }

DeliveryLine& Delivery::add(LotDraft draft) {
    lines_.push_back({++last_number_, std::move(draft), {}});
    return lines_.back();
}

DeliveryLine* Delivery::find(std::int64_t number) {
    const auto at =
        std::find_if(lines_.begin(), lines_.end(), [&](const auto& l) { return l.number == number; });
    return at == lines_.end() ? nullptr : &*at;
}

DeliveryLine& Delivery::at_hand() { return *find(at_hand_); }

const DeliveryLine& Delivery::at_hand() const {
    return *std::find_if(lines_.begin(), lines_.end(), [&](const auto& l) { return l.number == at_hand_; });
}

void Delivery::take_up(std::int64_t number) {
    if (find(number))
        at_hand_ = number;
}

void Delivery::next() { at_hand_ = add(remembered(at_hand().draft)).number; }

void Delivery::scanned(const std::string& code) {
    const auto known =
        std::find_if(lines_.begin(), lines_.end(), [&](const auto& line) { return line.draft.code == code; });
    if (known != lines_.end()) {
        at_hand_ = known->number;
        return;
    }
    if (!at_hand().draft.code.empty())
        next();
    at_hand().draft.code = code;
}

void Delivery::join(const std::vector<LotDraft>& drafts) {
    if (drafts.empty())
        return;
    std::erase_if(lines_, [](const auto& line) { return is_untouched(line.draft); });
    const auto first = last_number_ + 1;
    for (const auto& draft : drafts)
        add(draft);
    at_hand_ = first;
}

void Delivery::drop_at_hand() {
    const auto at =
        std::find_if(lines_.begin(), lines_.end(), [&](const auto& l) { return l.number == at_hand_; });
    const auto place = static_cast<std::size_t>(at - lines_.begin());
    const auto kept = remembered(at->draft);
    lines_.erase(at);
    if (lines_.empty())
        add(kept);
    at_hand_ = lines_[std::min(place, lines_.size() - 1)].number;
}

void Delivery::empty() {
    auto kept = remembered(at_hand().draft);
    kept.delivery_note.clear();
    lines_.clear();
    at_hand_ = add(std::move(kept)).number;
}

std::vector<std::int64_t> Delivery::filled() const {
    std::vector<std::int64_t> numbers;
    for (const auto& line : lines_)
        if (!is_untouched(line.draft))
            numbers.push_back(line.number);
    return numbers;
}

std::vector<LotDraft> Delivery::drafts_of(const std::vector<std::int64_t>& numbers) const {
    std::vector<LotDraft> drafts;
    for (const auto& line : lines_)
        if (std::find(numbers.begin(), numbers.end(), line.number) != numbers.end())
            drafts.push_back(line.draft);
    return drafts;
}

void Delivery::forget_refusals() {
    for (auto& line : lines_)
        line.refusals.clear();
}

Refusals Delivery::put_at_lots(const Refusals& refusals, const std::vector<std::int64_t>& sent) {
    forget_refusals();
    Refusals of_none;
    for (const auto& refusal : refusals) {
        bool is_put = false;
        for (std::size_t i = 0; i < sent.size(); ++i) {
            auto* line = find(sent[i]);
            if (!line)
                continue;
            auto field = field_at_lot(refusal, line->draft, i + 1);
            if (!field && sent.size() == 1 && !refusal.field.empty())
                field = refusal.field;
            if (!field)
                continue;
            line->refusals.push_back({*field, refusal.what, refusal.remedy});
            is_put = true;
        }
        if (!is_put)
            of_none.push_back(refusal);
    }
    const auto first =
        std::find_if(lines_.begin(), lines_.end(), [](const auto& line) { return !line.refusals.empty(); });
    if (first != lines_.end() && at_hand().refusals.empty())
        at_hand_ = first->number;
    return of_none;
}

} // namespace mellowbin::views
