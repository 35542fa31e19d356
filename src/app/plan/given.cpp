#include "app/plan/given.h"

#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

namespace mellowbin::app {
namespace {

bool stands_before(const Given& a, const Given& b) {
    return std::tuple(a.lot, a.delivery, a.mass) < std::tuple(b.lot, b.delivery, b.mass);
}

} // namespace

GivenByRun given_by_book(const Book& book) {
    GivenByRun given;
    for (const auto& a : book.assignments)
        given[a.run].push_back({a.lot, {}, a.mass, a.is_locked, a.reason});
    for (const auto& p : book.promises)
        given[p.run].push_back({{}, p.delivery, p.mass, false, p.reason});
    return given;
}

std::string in_words(const Book& book, const std::vector<Given>& given) {
    std::string words;
    for (const auto& g : given) {
        const Lot* lot = book.lot(g.lot);
        const auto* delivery = book.delivery(g.delivery);
        words +=
            fmt::format("{}{} kg {}{}", words.empty() ? "" : " + ", fixed(to_kilograms(g.mass).value(), 0),
                        lot        ? lot->code
                        : delivery ? delivery->code
                                   : "?",
                        g.is_locked ? " (locked)" : "");
    }
    return words.empty() ? "nothing" : words;
}

bool is_same(const std::vector<Given>& a, const std::vector<Given>& b) {
    const auto sorted = [](std::vector<Given> given) {
        std::sort(given.begin(), given.end(), stands_before);
        return given;
    };
    const auto x = sorted(a);
    const auto y = sorted(b);
    return std::equal(x.begin(), x.end(), y.begin(), y.end(), [](const Given& one, const Given& other) {
        return !stands_before(one, other) && !stands_before(other, one);
    });
}

} // namespace mellowbin::app
