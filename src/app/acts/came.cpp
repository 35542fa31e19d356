#include "app/acts/came.h"

#include "app/book/fields.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

void give(RestoreAssignments& plan, const ExpectedDelivery& delivery, const Promise& promise, LotId lot,
          Grams mass) {
    const auto same = std::find_if(plan.assignments.begin(), plan.assignments.end(),
                                   [&](const Assignment& a) { return a.run == promise.run && a.lot == lot; });
    if (same != plan.assignments.end())
        same->mass += mass;
    else
        plan.assignments.push_back({promise.run, lot, mass, false,
                                    fmt::format("{} came as this lot. {}", delivery.code, promise.reason)});
}

std::string of_runs(std::size_t runs) { return fmt::format("{} {}", runs, runs == 1 ? "run" : "runs"); }

} // namespace

std::vector<RunId> promised_runs(const Book& book, ExpectedId delivery) {
    std::vector<RunId> runs;
    for (const auto& run : book.runs)
        for (const auto& p : book.promises)
            if (p.run == run.id && p.delivery == delivery)
                runs.push_back(run.id);
    return runs;
}

Arrived arrived(const Book& book, const ExpectedDelivery& delivery, std::vector<LotThere> lots,
                const std::vector<RunId>& runs) {
    Arrived result{as_they_stand(book, runs), {}};
    auto& plan = result.plan;
    for (const RunId run : runs) {
        const auto at = std::find_if(plan.promises.begin(), plan.promises.end(), [&](const Promise& p) {
            return p.run == run && p.delivery == delivery.id;
        });
        const Promise promise = *at;
        plan.promises.erase(at);
        Grams wanted = promise.mass;
        for (auto& there : lots) {
            const Grams mass = std::min(wanted, there.free);
            if (mass <= Grams{0})
                continue;
            give(plan, delivery, promise, there.lot, mass);
            there.free = there.free - mass;
            wanted = wanted - mass;
        }
        result.missing += wanted;
    }
    return result;
}

std::string came_in_words(const ExpectedDelivery& delivery, const std::string& as, std::size_t runs,
                          Grams missing) {
    auto words = fmt::format("Delivery {} came as {}", delivery.code, as);
    if (runs == 0)
        return words;
    words += fmt::format("; it goes to the {} that counted on it", of_runs(runs));
    if (missing > Grams{0})
        words += fmt::format(", {} short: plan again", kg_words(missing));
    return words;
}

std::string called_off_in_words(const ExpectedDelivery& delivery, const std::string& reason,
                                std::size_t runs) {
    auto words = fmt::format("Delivery {} called off: {}", delivery.code, reason);
    return runs == 0 ? words : words + fmt::format("; {} counted on it: plan again", of_runs(runs));
}

} // namespace mellowbin::app
