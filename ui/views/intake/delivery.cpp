#include "ui/views/intake/delivery.h"

#include "ui/views/common/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

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
           d.mill_oxidant_ppm.empty() && d.further_additions.empty() && d.pallets.empty() && !has_figure;
}

Delivery::Delivery() { at_hand_ = add({}).number; }

DeliveryLine& Delivery::add(LotDraft draft) {
    auto& line = lines_.emplace_back();
    line.number = ++last_number_;
    line.draft = std::move(draft);
    return line;
}

DeliveryLine* Delivery::find(std::int64_t number) {
    const auto at =
        std::find_if(lines_.begin(), lines_.end(), [&](const auto& l) { return l.number == number; });
    return at == lines_.end() ? nullptr : &*at;
}

const DeliveryLine* Delivery::find(std::int64_t number) const {
    const auto at =
        std::find_if(lines_.begin(), lines_.end(), [&](const auto& l) { return l.number == number; });
    return at == lines_.end() ? nullptr : &*at;
}

DeliveryLine& Delivery::at_hand() { return *find(at_hand_); }

const DeliveryLine& Delivery::at_hand() const {
    return *std::find_if(lines_.begin(), lines_.end(), [&](const auto& l) { return l.number == at_hand_; });
}

bool Delivery::has(const std::string& code) const {
    return std::any_of(lines_.begin(), lines_.end(),
                       [&](const DeliveryLine& line) { return !code.empty() && line.draft.code == code; });
}

void Delivery::take_up(std::int64_t number) {
    if (find(number))
        at_hand_ = number;
}

/// Behind the lot at hand, like it in what a delivery's lots have in common.
void Delivery::next() {
    const auto kept = at_hand();
    auto& line = add(remembered(kept.draft));
    line.basis = kept.basis;
    line.own_basis = kept.own_basis;
    at_hand_ = line.number;
}

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
    at_hand().leave("Lot number");
}

int Delivery::scanned(const LotDraft& label) {
    scanned(label.code);
    auto& line = at_hand();
    int filled = 0;
    const auto fill = [&](std::string_view field, std::string& text, const std::string& read) {
        if (read.empty() || (!text.empty() && text != read))
            return; // what a person typed stays
        text = read;
        line.change(field);
        line.leave(field);
        line.scanned.insert(std::string(field));
        ++filled;
    };
    fill("Lot number", line.draft.code, label.code);
    fill("Milled on", line.draft.milled_on, label.milled_on);
    fill("Best before", line.draft.best_before, label.best_before);
    fill("Weight", line.draft.mass_kg, label.mass_kg);
    return filled;
}

std::map<std::int64_t, std::int64_t> Delivery::take_up_kept(std::vector<DeliveryLine> lines,
                                                            std::int64_t at_hand) {
    std::map<std::int64_t, std::int64_t> numbers;
    if (lines.empty())
        return numbers;
    std::erase_if(lines_, [](const auto& line) { return is_untouched(line.draft); });
    for (auto& line : lines) {
        const auto before = std::exchange(line.number, ++last_number_);
        numbers.emplace(before, line.number);
        lines_.push_back(std::move(line));
    }
    const auto at = numbers.find(at_hand);
    at_hand_ = at == numbers.end() ? numbers.begin()->second : at->second;
    return numbers;
}

void Delivery::drop_at_hand() {
    const auto at =
        std::find_if(lines_.begin(), lines_.end(), [&](const auto& l) { return l.number == at_hand_; });
    const auto place = static_cast<std::size_t>(at - lines_.begin());
    if (lines_.size() == 1) {
        begin_anew();
        return;
    }
    lines_.erase(at);
    at_hand_ = lines_[std::min(place, lines_.size() - 1)].number;
}

void Delivery::begin_anew() {
    const auto kept = at_hand();
    lines_.clear();
    auto& line = add(remembered(kept.draft));
    line.basis = kept.basis;
    line.own_basis = kept.own_basis;
    at_hand_ = line.number;
}

void Delivery::take_out(const std::vector<std::int64_t>& numbers) {
    const auto is_out = [&](const DeliveryLine& line) {
        return std::find(numbers.begin(), numbers.end(), line.number) != numbers.end();
    };
    if (std::all_of(lines_.begin(), lines_.end(),
                    [&](const auto& line) { return is_out(line) || is_untouched(line.draft); })) {
        begin_anew();
        at_hand().draft.delivery_note.clear();
        return;
    }
    std::erase_if(lines_, is_out);
    if (!find(at_hand_))
        at_hand_ = lines_.front().number;
}

void Delivery::say_of_all(std::string LotDraft::*field, const std::string& text) {
    const auto before = at_hand().draft.*field;
    if (text == before)
        return;
    for (auto& line : lines_)
        if (line.draft.*field == before) {
            line.draft.*field = text;
            line.is_checked = false;
        }
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

Refusals Delivery::put_at_lots(const Refusals& refusals, const std::vector<std::int64_t>& sent) {
    for (const auto number : sent)
        if (auto* line = find(number)) {
            line->answered.clear();
            line->all_left = true;
            line->is_checked = false;
        }
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
            line->put({*field, refusal.what, refusal.remedy});
            is_put = true;
        }
        if (!is_put)
            of_none.push_back(refusal);
    }
    const auto first =
        std::find_if(lines_.begin(), lines_.end(), [](const auto& line) { return !line.is_whole(); });
    if (first != lines_.end() && at_hand().is_whole())
        at_hand_ = first->number;
    return of_none;
}

std::string name_of(const Delivery& delivery, const DeliveryLine& line) {
    if (!line.draft.code.empty())
        return line.draft.code;
    for (std::size_t i = 0; i < delivery.lines().size(); ++i)
        if (delivery.lines()[i].number == line.number)
            return fmt::format("{} lot", ordinal(i + 1));
    return {};
}

} // namespace mellowbin::views
