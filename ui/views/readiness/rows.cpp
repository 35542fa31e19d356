#include "ui/views/readiness/rows.h"

#include "app/models/outlook.h"
#include "app/models/readiness.h"

#include <algorithm>
#include <tuple>

namespace mellowbin::views {

using namespace ui;

namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool holds(std::string_view text, std::string_view lowered) {
    return std::search(text.begin(), text.end(), lowered.begin(), lowered.end(),
                       [](char a, char b) { return lower(a) == b; }) != text.end();
}

/// Every word typed must be somewhere in the lot's words.
bool passes(const app::ReadinessRow& row, const std::vector<std::string>& words) {
    return std::all_of(words.begin(), words.end(), [&](const std::string& word) {
        return holds(row.code, word) || holds(row.flour, word) ||
               holds(name_of(row.state, row.standing), word) || holds(app::in_words(row.now), word) ||
               holds(app::in_words(row.advice), word) || (row.asks_check && holds("check", word));
    });
}

std::vector<std::string> words_of(const std::string& typed) {
    std::vector<std::string> words(1);
    for (char c : typed) {
        if (c != ' ')
            words.back() += lower(c);
        else if (!words.back().empty())
            words.emplace_back();
    }
    if (words.back().empty())
        words.pop_back();
    return words;
}

/// What can go into dough soonest stands on top; what must be judged by people at the end.
int place_in_use(app::Readiness readiness) {
    switch (readiness) {
    case app::Readiness::use_first:
        return 0;
    case app::Readiness::ready:
        return 1;
    case app::Readiness::usable:
        return 2;
    case app::Readiness::young:
        return 3;
    case app::Readiness::past_best:
        return 4;
    }
    return 5;
}

int place_in_use(app::Advice advice) {
    switch (advice) {
    case app::Advice::use_first:
        return 0;
    case app::Advice::use:
        return 1;
    case app::Advice::wait:
        return 2;
    case app::Advice::hold:
        return 3;
    }
    return 4;
}

Day or_never(const std::optional<Day>& day) { return day.value_or(Day::max()); }

void sort_rows(std::vector<std::uint32_t>& shown, const app::ReadinessModel& model, LotOrder order) {
    const auto by = [&](auto key) {
        std::stable_sort(shown.begin(), shown.end(),
                         [&](auto a, auto b) { return key(model.rows[a]) < key(model.rows[b]); });
    };
    using Row = app::ReadinessRow;
    if (order == LotOrder::ready_first)
        by([](const Row& row) {
            return std::tuple(place_in_use(row.now),
                              or_never(row.now == app::Readiness::use_first ? row.past_best_at_confidence
                                                                            : row.ready_at_confidence));
        });
    else if (order == LotOrder::by_flour)
        by([](const Row& row) { return std::tuple(std::string_view(row.flour), place_in_use(row.now)); });
    // Youngest first is the model's own order.
}

void sort_by_column(std::vector<std::uint32_t>& shown, const app::ReadinessModel& model, const Sort& sort) {
    const auto by = [&](auto key) {
        std::stable_sort(shown.begin(), shown.end(), [&](auto a, auto b) {
            return sort.direction == Direction::up ? key(model.rows[a]) < key(model.rows[b])
                                                   : key(model.rows[b]) < key(model.rows[a]);
        });
    };
    using Row = app::ReadinessRow;
    switch (sort.column) {
    case of_lot:
        return by([](const Row& row) { return std::string_view(row.code); });
    case of_advice:
        return by([](const Row& row) { return std::tuple(place_in_use(row.advice), place_in_use(row.now)); });
    case of_flour:
        return by([](const Row& row) { return std::string_view(row.flour); });
    case of_stock:
        return by([](const Row& row) { return row.stock_kg; });
    case of_state:
        return by([](const Row& row) { return std::tuple(row.state, place_in_use(row.now)); });
    case of_probability:
        return by([](const Row& row) { return row.probability_mature; });
    case of_ready:
        return by([](const Row& row) { return or_never(row.ready_at_confidence); });
    case of_end:
        return by([](const Row& row) { return or_never(row.past_best_at_confidence); });
    case of_results: // those that ask for a check first
        return by([](const Row& row) { return std::tuple(!row.asks_check, row.tests); });
    case of_measured:
        return by([](const Row& row) { return row.measured; });
    default:
        return;
    }
}

/// Alike for as long as the rows would come out the same.
std::uint64_t mark_of(const RowWish& wish, const app::ReadinessModel& model) {
    std::uint64_t mark = 1469598103934665603U; // FNV-1a
    const auto mix = [&](std::uint64_t value) { mark = (mark ^ value) * 1099511628211U; };
    const auto mix_day = [&](const std::optional<Day>& day) {
        mix(day ? static_cast<std::uint64_t>(day->time_since_epoch().count()) : ~std::uint64_t{0});
    };
    for (char c : wish.filter)
        mix(static_cast<unsigned char>(c));
    mix(static_cast<std::uint64_t>(wish.order));
    mix(static_cast<std::uint64_t>(wish.sort.column + 2));
    mix(wish.sort.direction == Direction::up ? 1 : 2);
    mix(model.rows.size());
    for (const auto& row : model.rows) {
        mix(static_cast<std::uint64_t>(row.id.number()));
        mix(static_cast<std::uint64_t>(row.now) * 64 + static_cast<std::uint64_t>(row.state) * 8 +
            static_cast<std::uint64_t>(row.advice) * 2 + (row.asks_check ? 1 : 0));
        mix(static_cast<std::uint64_t>(row.tests) * 2048 + static_cast<std::uint64_t>(row.measured * 1000));
        mix(static_cast<std::uint64_t>(row.stock_kg * 10));
        mix(static_cast<std::uint64_t>(row.probability_mature * 1e6));
        mix_day(row.ready_at_confidence);
        mix_day(row.past_best_at_confidence);
        for (char c : row.standing.words)
            mix(static_cast<unsigned char>(c));
    }
    return mark;
}

} // namespace

const std::vector<std::uint32_t>& ShownRows::of(const app::ReadinessModel& model, const RowWish& wish) {
    const auto mark = mark_of(wish, model);
    if (mark == mark_)
        return rows_;
    mark_ = mark;
    rows_.clear();
    const auto words = words_of(wish.filter);
    for (std::uint32_t i = 0; i < model.rows.size(); ++i)
        if (passes(model.rows[i], words))
            rows_.push_back(i);
    sort_rows(rows_, model, wish.order);
    if (wish.sort.column >= 0)
        sort_by_column(rows_, model, wish.sort);
    return rows_;
}

} // namespace mellowbin::views
