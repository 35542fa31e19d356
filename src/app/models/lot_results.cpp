#include "app/models/lot_results.h"

#include "app/book/book.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

/// By the newest results that have a comparable figure.
Judgement newest_judgement(const Lot& lot, const std::vector<const Retest*>& retests, const Window& window) {
    for (const Retest* retest : retests) {
        const auto judged = judge(retest->results, {window}).front();
        if (judged.value && judged.verdict != Verdict::not_comparable)
            return judged;
    }
    return judge(lot.certificate, {window}).front();
}

} // namespace

std::vector<const Retest*> standing_retests(const Book& book, LotId lot) {
    auto standing = book.retests_of(lot);
    std::erase_if(standing, [](const Retest* retest) { return retest->is_withdrawn; });
    std::stable_sort(standing.begin(), standing.end(), [](const Retest* a, const Retest* b) {
        return std::pair(a->taken_on, a->id) > std::pair(b->taken_on, b->id);
    });
    return standing;
}

std::vector<std::string> failing_results(const Book& book, const Lot& lot) {
    std::vector<std::string> failing;
    const Flour* flour = book.flour(lot.flour);
    if (!flour)
        return failing;
    const auto retests = standing_retests(book, lot.id);
    for (const auto& window : flour->specification) {
        const auto judged = newest_judgement(lot, retests, window);
        if (judged.verdict == Verdict::below || judged.verdict == Verdict::above)
            failing.push_back(fmt::format("{} {}", traits(window.property).name, judged.words));
    }
    return failing;
}

std::string failing_as_text(const std::vector<std::string>& failing) {
    std::string all;
    for (const auto& one : failing)
        all += (all.empty() ? "" : "; ") + one;
    return all;
}

} // namespace mellowbin::app
