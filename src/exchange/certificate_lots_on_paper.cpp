#include "exchange/certificate_lots_on_paper.h"

#include "core/typed_text.h"

#include <algorithm>
#include <cstdlib>
#include <utility>

namespace mellowbin::exchange {

LotsOnPaper::LotsOnPaper(std::size_t sheet, LabelBook& labels, CertificateLayout& layout)
    : sheet_(sheet), labels_(labels), layout_(layout) {
    for (const auto& value : layout.values)
        if (is(value, LotFact::lot_number) && value.lot != of_every_lot)
            by_code_.emplace(trimmed(value.text), value.lot);
}

bool LotsOnPaper::is(const LaidOutValue& value, LotFact fact) const {
    const auto& label = labels_.at(value.label);
    return label.state == LabelState::known && label.means.front() == key_of(fact);
}

bool LotsOnPaper::is_fact(const LaidOutValue& value) const {
    const auto& means = labels_.at(value.label).means;
    return std::any_of(means.begin(), means.end(), [](const std::string& key) {
        const auto meaning = meaning_from_key(key);
        return meaning && meaning->fact;
    });
}

void LotsOnPaper::keep(LaidOutValue value, std::size_t lot) {
    value.lot = lot;
    layout_.values.push_back(std::move(value));
}

void LotsOnPaper::leave_out(const LaidOutValue& value) {
    layout_.rest.push_back({value.sheet, value.row, value.column, labels_.at(value.label).text, value.text,
                            "stands by itself, and it is not said of which lot it is"});
}

/// The lot of that number, made where there is none yet.
std::size_t LotsOnPaper::lot_of(const std::string& code, const LaidOutValue& at) {
    const auto known = by_code_.find(code);
    if (!code.empty() && known != by_code_.end())
        return known->second;
    layout_.lots.push_back({at.sheet, at.row, "", {}});
    if (!code.empty())
        by_code_.emplace(code, layout_.lots.size() - 1);
    return layout_.lots.size() - 1;
}

void LotsOnPaper::open_columns(std::vector<LotColumn> columns) {
    const bool are_named_again = columns_.size() == columns.size() && !has_results_;
    std::vector<OpenColumn> opened;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        LaidOutValue number;
        number.label = columns[i].label;
        number.sheet = sheet_;
        number.row = columns[i].row;
        number.column = columns[i].place.column;
        number.text = columns[i].code;
        number.trouble = columns[i].trouble;
        if (are_named_again) {
            put_in_column(std::move(number), columns_[i].place);
            continue;
        }
        const auto lot = lot_of(std::string(trimmed(number.text)), number);
        keep(std::move(number), lot);
        opened.push_back({columns[i].place, lot});
    }
    if (!are_named_again) {
        columns_ = std::move(opened);
        has_results_ = false;
        lot_.reset();
    }
}

void LotsOnPaper::put_in_column(LaidOutValue value, const FilledCell& place) {
    const auto off = [&](const OpenColumn& column) {
        return std::abs(static_cast<long>(column.place.from + column.place.to) -
                        static_cast<long>(place.from + place.to));
    };
    const auto nearest =
        std::min_element(columns_.begin(), columns_.end(),
                         [&](const OpenColumn& a, const OpenColumn& b) { return off(a) < off(b); });
    // A lot number in the table is better than the words over its column.
    if (is(value, LotFact::lot_number))
        std::erase_if(layout_.values, [&](const LaidOutValue& earlier) {
            return earlier.lot == nearest->lot && earlier.sheet == sheet_ && is(earlier, LotFact::lot_number);
        });
    has_results_ = has_results_ || !is_fact(value);
    keep(std::move(value), nearest->lot);
}

void LotsOnPaper::begin_lot(LaidOutValue number) {
    columns_.clear();
    const bool is_first = !lot_;
    const auto lot = lot_of(std::string(trimmed(number.text)), number);
    if (lot_ != lot)
        has_results_ = false;
    lot_ = lot;
    // The mill in the head of a paper is of all its lots, also of those further down.
    if (is_first)
        for (auto& value : waiting_)
            if (is(value, LotFact::mill) || is(value, LotFact::delivery_note))
                keep(std::exchange(value, LaidOutValue{}), of_every_lot);
    std::erase_if(waiting_,
                  [](const LaidOutValue& value) { return value.text.empty() && value.trouble.empty(); });
    give_waiting_to(lot);
    keep(std::move(number), lot);
}

void LotsOnPaper::give_waiting_to(std::size_t lot) {
    for (auto& value : waiting_) {
        has_results_ = has_results_ || !is_fact(value);
        keep(std::move(value), lot);
    }
    waiting_.clear();
}

void LotsOnPaper::put(LaidOutValue value, const FilledCell* column) {
    if (value.text.empty() && value.trouble.empty())
        return;
    if (column && has_columns()) {
        put_in_column(std::move(value), *column);
    } else if (is(value, LotFact::lot_number)) {
        begin_lot(std::move(value));
    } else if (has_columns() && is_fact(value)) {
        keep(std::move(value), of_every_lot);
    } else if (lot_ && (!is_fact(value) || !has_results_)) {
        has_results_ = has_results_ || !is_fact(value);
        keep(std::move(value), *lot_);
    } else {
        waiting_.push_back(std::move(value));
    }
}

void LotsOnPaper::finish() {
    if (waiting_.empty())
        return;
    const bool has_result = std::any_of(waiting_.begin(), waiting_.end(),
                                        [&](const LaidOutValue& value) { return !is_fact(value); });
    if (!lot_ && layout_.lots.empty() && has_result)
        lot_ = lot_of("", waiting_.front());
    if (!lot_ && layout_.lots.size() == 1)
        lot_ = 0;
    if (lot_) {
        give_waiting_to(*lot_);
        return;
    }
    for (auto& value : waiting_) {
        if (is_fact(value))
            keep(std::move(value), of_every_lot);
        else
            leave_out(value);
    }
    waiting_.clear();
}

} // namespace mellowbin::exchange
