#include "planning/order_by.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>

namespace mellowbin::planning {

namespace {

bool can_mature(const MissingFlour& flour, double today) {
    return flour.arrive_by && *flour.arrive_by >= today;
}

void add(FlourOrder& order, const MissingFlour& flour, int index, bool in_time) {
    order.first_day = order.missing.empty() ? flour.day : std::min(order.first_day, flour.day);
    order.kind = flour.kind;
    order.tonnes += flour.tonnes;
    order.missing.push_back(index);
    if (in_time)
        order.arrive_by = std::min(order.arrive_by.value_or(*flour.arrive_by), *flour.arrive_by);
}

} // namespace

std::vector<FlourOrder> orders_for(const std::vector<MissingFlour>& missing, double today, int weekday) {
    std::vector<int> by_day(missing.size());
    std::iota(by_day.begin(), by_day.end(), 0);
    std::stable_sort(by_day.begin(), by_day.end(),
                     [&](int a, int b) { return missing[a].day < missing[b].day; });
    std::map<std::tuple<int, int, bool>, FlourOrder> orders;
    for (const int i : by_day) {
        const int week = static_cast<int>(std::floor((missing[i].day + weekday) / 7));
        const bool in_time = can_mature(missing[i], today);
        add(orders[{missing[i].kind, week, in_time}], missing[i], i, in_time);
    }
    std::vector<FlourOrder> list;
    for (auto& [key, order] : orders)
        list.push_back(std::move(order));
    std::stable_sort(list.begin(), list.end(), [](const FlourOrder& a, const FlourOrder& b) {
        return std::pair(a.arrive_by.value_or(-1e9), a.first_day) <
               std::pair(b.arrive_by.value_or(-1e9), b.first_day);
    });
    return list;
}

} // namespace mellowbin::planning
