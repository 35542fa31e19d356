#include "app/book/taught_check.h"

#include "app/book/taught.h"
#include "db/belief_store.h"
#include "exchange/taught.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

namespace mellowbin::app {
namespace {

constexpr double as_good_as_equal = 1e-6; // points, kJ/kg and their squares
constexpr int page = 2000;

std::string fault(BatchId batch, std::string_view what) {
    return fmt::format(
        "What the doughs taught, as kept up to batch {}, {}. The batches themselves are as they "
        "were; make it anew from them with: mellowbin doughs-anew",
        batch.number(), what);
}

/// Nothing where it cannot be read.
std::optional<Taught> read(const BeliefMark& mark) {
    try {
        return Taught(mark.last_batch, exchange::taught_from_json(mark.state));
    } catch (const std::runtime_error&) {
        return {};
    }
}

/// Takes in the batches up to the mark, and lets go the lots where they were let go. The largest difference
/// to what is kept of these.
double take_in(Connection& connection, Taught& taught, BatchId up_to, const std::vector<LetGoLot>& gone) {
    const TaughtStore store(connection);
    const auto said = store.expected();
    double largest = 0;
    auto next = gone.begin();
    while (taught.through() < up_to) {
        const auto batches = store.after(taught.through(), page);
        if (batches.empty())
            break;
        for (const auto& batch : batches) {
            if (batch.id > up_to)
                return largest;
            taught.take_in(batch, said);
            for (; next != gone.end() && next->after <= batch.id; ++next) {
                if (!taught.water.knows(next->lot))
                    continue;
                const auto was = taught.water.let_go(next->lot);
                largest = std::max(
                    {largest, std::abs(was.mean - next->mean), std::abs(was.variance - next->variance)});
                taught.water.forget(next->lot);
            }
        }
    }
    return largest;
}

} // namespace

std::vector<std::string> faults_of_what_is_taught(Connection& connection) {
    const BeliefStore store(connection, dough::form_of_taught_state());
    const auto mark = store.newest();
    if (!mark)
        return {};
    const auto kept = read(*mark);
    if (!kept)
        return {fault(mark->last_batch, "cannot be read")};
    Taught made;
    if (const auto before = store.newest(mark->last_batch)) {
        const auto from = read(*before);
        if (!from)
            return {fault(before->last_batch, "cannot be read")};
        made = *from;
    }
    const auto gone = store.let_go_between(made.through(), mark->last_batch);
    const double of_lots = take_in(connection, made, mark->last_batch, gone);
    const double of_all = dough::difference(kept->state(), made.state());
    if (made.through() != mark->last_batch || !(std::max(of_lots, of_all) <= as_good_as_equal))
        return {fault(mark->last_batch, "is not what the batches say")};
    return {};
}

} // namespace mellowbin::app
