#include "app/acts/fermentation.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/models/fermentation_words.h"
#include "core/decimal.h"
#include "db/run_store.h"

#include <fmt/format.h>

#include <cmath>

namespace mellowbin::app {
namespace {

constexpr const char* field = "Longer fermentation";
constexpr double most_minutes = 2880; // as of a product's longest

std::optional<int> read_minutes(const std::string& typed, Refusals& refusals) {
    const auto read = read_decimal_within(field, typed, {0, most_minutes, "min"});
    if (!read) {
        append(refusals, read.refusals());
        return {};
    }
    const double minutes = read->value_or(0);
    if (minutes != std::floor(minutes)) {
        refusals.push_back({field, fmt::format("{:g} was read; whole minutes are expected", minutes),
                            "Enter a whole number, or 0 to take it back"});
        return {};
    }
    return static_cast<int>(minutes);
}

/// Why nothing of the run's dough is left to ferment otherwise.
void judge_run(const State& state, const Run& run, Refusals& refusals) {
    if (run.day < state.today())
        refusals.push_back({"Run", fmt::format("{} was on {}, which is past", run.code, iso(run.day)),
                            "Choose a run of today or later"});
    if (state.book.batches_mixed(run) >= run.batches)
        refusals.push_back({"Run", fmt::format("all batches of {} are mixed", run.code),
                            "Choose a run with batches still to be mixed"});
}

} // namespace

std::optional<Run> fermented_longer(const State& state, const Run& run, const std::string& minutes,
                                    Refusals& refusals) {
    const auto before = refusals.size();
    judge_run(state, run, refusals);
    const auto read = read_minutes(minutes, refusals);
    const Product* product = state.book.product(run.product);
    if (!product)
        refusals.push_back({"Run", "is of a product that is not in the book", "Choose another run"});
    else if (read && *read > 0)
        append(refusals, why_not_fermented_longer(*product, *read));
    if (refusals.size() > before)
        return {};
    Run longer = run;
    longer.longer_fermentation_minutes = *read;
    return longer;
}

FermentLonger fermented_as(const Run& run) {
    return {run.id, std::to_string(run.longer_fermentation_minutes)};
}

std::string fermentation_of(const Product& product, const Run& run) {
    const auto in_all = fermentation_in_words(as_baked(product, run).fermentation_minutes);
    if (run.longer_fermentation_minutes <= 0)
        return fmt::format("ferments {}, no longer than its product", in_all);
    return fmt::format("ferments {} min longer, {} in all", run.longer_fermentation_minutes, in_all);
}

Result<Told> carry_out(State& state, const FermentLonger& intent) {
    const Run* run = state.book.run(intent.run);
    if (!run)
        return Refusal{"Run", "is not in the book", "Choose a run on the plan"};
    Refusals refusals;
    const auto longer = fermented_longer(state, *run, intent.minutes, refusals);
    if (!longer)
        return refusals;
    const auto words =
        fmt::format("Run {} {}", run->code, fermentation_of(*state.book.product(run->product), *longer));
    if (longer->longer_fermentation_minutes == run->longer_fermentation_minutes)
        return Told{words + ", as before"};
    auto undoing = fermented_as(*run);
    Change change = state.change("ferment_longer", subject_of(*run), words);
    if (const auto saved = RunStore(*state.connection).save(change, *longer); !saved)
        return change.refuse(saved.refusals());
    change.commit();
    return Told{words, Touched::nothing, "Undo: ferment as before", {std::move(undoing)}};
}

} // namespace mellowbin::app
