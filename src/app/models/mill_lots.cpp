#include "app/models/mill_lots.h"

#include "app/book/book.h"
#include "core/own_test.h"

#include <algorithm>

namespace mellowbin::app {
namespace {

constexpr int lots_on_a_page = 20;

const Specification& specification_of(const Book& book, FlourId id) {
    static const Specification none;
    const Flour* flour = book.flour(id);
    return flour ? flour->specification : none;
}

std::string name_of(const Book& book, FlourId id) {
    const Flour* flour = book.flour(id);
    return flour ? flour->name : "?";
}

bool is_out(Verdict verdict) { return verdict == Verdict::below || verdict == Verdict::above; }

const std::vector<Retest>& tests_of(const MillLots& lots, LotId lot) {
    static const std::vector<Retest> none;
    const auto at = lots.tests.find(lot);
    return at == lots.tests.end() ? none : at->second;
}

/// Those of the lot as it came, one after another; a property that is out in one of them is out.
std::vector<Judgement> judge_own(const MillLots& lots, const Lot& lot, const Specification& specification) {
    std::vector<Judgement> all;
    for (const auto& window : specification)
        all.push_back({window, Verdict::missing, {}, ""});
    for (const auto& test : tests_of(lots, lot.id)) {
        if (test.taken_on > lot.delivered_on + tested_as_it_came)
            continue;
        const auto judged = judge(test.results, specification);
        for (std::size_t i = 0; i < judged.size(); ++i)
            if (all[i].verdict == Verdict::missing || is_out(judged[i].verdict))
                all[i] = judged[i];
    }
    return all;
}

void count_property(MillSide& side, const Judgement& judgement) {
    auto at = std::find_if(side.outsides.begin(), side.outsides.end(),
                           [&](const MillOutside& one) { return one.property == judgement.window.property; });
    if (at == side.outsides.end())
        at = side.outsides.insert(side.outsides.end(), {judgement.window.property, 0, 0});
    if (judgement.verdict == Verdict::inside || is_out(judgement.verdict))
        ++at->lots;
    if (is_out(judgement.verdict))
        ++at->outside;
}

void count(MillSide& side, const std::vector<Judgement>& judgements) {
    bool is_any_out = false, is_any_in = false;
    for (const auto& judgement : judgements) {
        count_property(side, judgement);
        is_any_out |= is_out(judgement.verdict);
        is_any_in |= judgement.verdict == Verdict::inside;
    }
    ++(is_any_out ? side.outside : is_any_in ? side.inside : side.unknown);
}

MillValue value_of(const MillLots& lots, const Lot& lot, Property property, const Specification& windows) {
    MillValue value;
    for (const auto& judgement : judge(lot.certificate, windows))
        if (judgement.window.property == property) {
            value.is_asked = true;
            value.is_mill_out = is_out(judgement.verdict);
        }
    value.mill = comparable_at_14(lot.certificate, property);
    for (const auto& judgement : judge_own(lots, lot, windows))
        if (judgement.window.property == property) {
            value.own = judgement.value;
            value.is_own_out = is_out(judgement.verdict);
        }
    return value;
}

MillLotRow row_of(const MillLots& lots, const Lot& lot, const Book& book,
                  const std::vector<Property>& properties) {
    MillLotRow row;
    row.id = lot.id;
    row.code = lot.code;
    row.flour = name_of(book, lot.flour);
    row.state = lot.state;
    row.delivered_on = lot.delivered_on;
    row.kg = to_kilograms(lot.received).value();
    if (const auto at = lots.expected.find(lot.id); at != lots.expected.end())
        row.days_late = static_cast<int>((at->second.came - at->second.arrives).count());
    for (const auto property : properties)
        row.values.push_back(value_of(lots, lot, property, specification_of(book, lot.flour)));
    const auto fate = lots.fates.find(lot.id);
    row.was_held = lot.state == LotState::held || (fate != lots.fates.end() && fate->second.was_held);
    return row;
}

/// In the order of Property.
std::vector<Property> properties_of(const MillLots& lots, const Book& book) {
    std::vector<Property> properties;
    for (const auto& lot : lots.lots)
        for (const auto& window : specification_of(book, lot.flour))
            properties.push_back(window.property);
    std::sort(properties.begin(), properties.end());
    properties.erase(std::unique(properties.begin(), properties.end()), properties.end());
    return properties;
}

} // namespace

std::vector<MillFlour> flours_of(const MillLots& lots, const Book& book) {
    std::map<FlourId, MillFlour> by_flour;
    for (const auto& lot : lots.lots) {
        auto& flour = by_flour[lot.flour];
        flour.flour = lot.flour;
        ++flour.lots;
        flour.kg += to_kilograms(lot.received).value();
        const auto& specification = specification_of(book, lot.flour);
        count(flour.certificate, judge(lot.certificate, specification));
        if (!tests_of(lots, lot.id).empty())
            count(flour.own, judge_own(lots, lot, specification));
    }
    std::vector<MillFlour> flours;
    for (auto& [id, flour] : by_flour) {
        flour.name = name_of(book, id);
        flours.push_back(std::move(flour));
    }
    return flours;
}

MillLotsPage lots_page(const MillLots& lots, const Book& book, int page) {
    MillLotsPage shown;
    shown.all = static_cast<int>(lots.lots.size());
    shown.pages = (shown.all + lots_on_a_page - 1) / lots_on_a_page;
    shown.page = std::clamp(page, 0, std::max(0, shown.pages - 1));
    shown.first = shown.all == 0 ? 0 : shown.page * lots_on_a_page + 1;
    shown.properties = properties_of(lots, book);
    const int last = std::min(shown.all, (shown.page + 1) * lots_on_a_page);
    for (int i = shown.page * lots_on_a_page; i < last; ++i)
        shown.rows.push_back(
            row_of(lots, lots.lots[static_cast<std::size_t>(shown.all - 1 - i)], book, shown.properties));
    return shown;
}

} // namespace mellowbin::app
