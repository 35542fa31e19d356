#include "app/acts/solutions.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/settings.h"
#include "core/draft_reader.h"
#include "core/literature/constants.h"
#include "core/typed_text.h"
#include "db/batch_store.h"
#include "dough/oxidant.h"

#include <fmt/format.h>

#include <chrono>
#include <cmath>

namespace mellowbin::app {
namespace {

bool is_bromate(Substance substance) {
    return substance == Substance::potassium_bromate || substance == Substance::calcium_bromate;
}

/// Words where every line pours another strength, by more than the distance set; empty: one is near, or none
/// pours.
std::string far_from_lines(const State& state, double grams_per_litre) {
    const double most = Choices(state.book.settings).number("solution_distance");
    std::string strengths;
    for (const auto& line : state.book.lines) {
        if (line.stock_solution_g_per_l <= 0)
            continue;
        if (std::abs(grams_per_litre / line.stock_solution_g_per_l - 1) * 100 <= most)
            return {};
        strengths += fmt::format("{}{:g} g/L on {}", strengths.empty() ? "" : ", ",
                                 line.stock_solution_g_per_l, line.name);
    }
    if (strengths.empty())
        return {};
    return fmt::format("{:g} g/L was read; {} is poured", grams_per_litre, strengths);
}

Result<StockSolution> read_solution(const State& state, const MakeSolution& intent) {
    DraftReader reader;
    StockSolution solution;
    const auto name = trimmed(intent.substance);
    bool is_known = false;
    for (const auto& product : state.book.products)
        if (product.oxidant && name_of(*product.oxidant) == name) {
            solution.substance = *product.oxidant;
            is_known = true;
        }
    if (!is_known)
        reader.refuse("Oxidant",
                      name.empty() ? std::string("is empty")
                                   : fmt::format("\"{}\" goes into no product", excerpt(name)),
                      "Choose an oxidant that a product takes");
    if (is_known)
        if (const auto may = dough::may_be_dissolved(solution.substance); !may)
            append(reader.refusals, may.refusals());
    // Weaker than a tenth of a gram is more water than dough takes; stronger does not dissolve.
    solution.grams_per_litre = reader.required_number("Strength", intent.grams_per_litre, {0.1, 300, "g/L"});
    if (is_known && is_bromate(solution.substance) &&
        solution.grams_per_litre > literature::dough_bromate_solubility.value)
        reader.refuse(
            "Strength",
            fmt::format("{:g} g/L was read; bromate dissolves to {:g} g/L at 20 °C, less in the cold",
                        solution.grams_per_litre, literature::dough_bromate_solubility.value),
            "Make a weaker solution");
    if (solution.grams_per_litre > 0 && trimmed(intent.answer).empty())
        if (const auto words = far_from_lines(state, solution.grams_per_litre); !words.empty())
            reader.refuse("Reason", "is empty. " + words,
                          "Check the decimal point; if it really is so, say why");
    const double hours = reader.number("Keeps", intent.keeps_hours, {1, 168, "h"})
                             .value_or(Choices(state.book.settings).number("solution_hours"));
    if (!reader.refusals.empty())
        return reader.refusals;
    solution.made_at = state.setup.clock.now();
    solution.keeps_until = solution.made_at + std::chrono::minutes{std::lround(hours * 60)};
    solution.who = state.setup.person;
    return solution;
}

} // namespace

Result<Told> carry_out(State& state, const MakeSolution& intent) {
    const auto solution = read_solution(state, intent);
    if (!solution)
        return solution.refusals();
    const auto words = fmt::format("Stock solution of {}: {:g} g/L, keeps until {}",
                                   name_of(solution->substance), solution->grams_per_litre,
                                   state.setup.clock.in_words(solution->keeps_until, state.today()));
    const std::string answer(trimmed(intent.answer));
    Change change = state.change("make_solution",
                                 std::string("solution ") + std::string(key_of(solution->substance)), words);
    if (!answer.empty())
        change.journal_line().words += ": " + answer;
    BatchStore store(*state.connection);
    // The one before gives way: there is one bottle of an oxidant at a mixer.
    if (const auto* before = state.book.solution_of(solution->substance))
        if (const auto ended = store.end(change, before->id); !ended)
            return ended.refusals();
    const auto id = store.make(change, *solution);
    if (!id)
        return change.refuse(id.refusals());
    change.journal_line().about = record_of(*id);
    change.commit();
    ++state.batches_logged;
    return Told{words, Touched::nothing, "Undo: pour it away", {EndSolution{*id}}};
}

Result<Told> carry_out(State& state, const EndSolution& intent) {
    Change change = state.change("end_solution", "solution", "A stock solution was poured away");
    const auto done = BatchStore(*state.connection).end(change, intent.solution);
    if (!done)
        return done.refusals();
    change.commit();
    ++state.batches_logged;
    return Told{change.journal_line().words,
                Touched::nothing,
                "Undo: it is still there",
                {KeepSolution{intent.solution}}};
}

Result<Told> carry_out(State& state, const KeepSolution& intent) {
    Change change = state.change("keep_solution", "solution", "The stock solution is still there");
    const auto done = BatchStore(*state.connection).keep(change, intent.solution);
    if (!done)
        return done.refusals();
    change.commit();
    return Told{change.journal_line().words};
}

} // namespace mellowbin::app
