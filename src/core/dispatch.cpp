#include "core/dispatch.h"

#include "core/draft_reader.h"

#include <cmath>

namespace mellowbin {
namespace {

constexpr Bounds weights{0.001, 1'000'000, "kg"};
constexpr Bounds piece_weights{1, 20'000, "g"};
constexpr Bounds counts{1, 10'000'000, "pieces"};
constexpr double most_apart = 0.1; // of typed kg and what the pieces weigh: beyond that one is a slip

void read_pieces(const DispatchDraft& draft, Dispatch& dispatch, DraftReader& reader) {
    const auto pieces = reader.number("Pieces", draft.pieces, counts);
    if (!pieces)
        return;
    if (*pieces != std::floor(*pieces))
        reader.refuse("Pieces", fmt::format("\"{}\" was read", excerpt(draft.pieces)), "Enter whole pieces");
    else
        dispatch.pieces = static_cast<int>(*pieces);
}

void read_mass(const DispatchDraft& draft, Dispatch& dispatch, DraftReader& reader) {
    const auto kg = reader.number("Weight", draft.kg, weights);
    const auto piece_g = reader.number("Weight of a piece", draft.piece_g, piece_weights);
    std::optional<double> weighed;
    if (piece_g && dispatch.pieces)
        weighed = *piece_g * *dispatch.pieces / 1000;
    if (kg && weighed && std::abs(*kg - *weighed) > most_apart * *weighed)
        reader.refuse("Weight",
                      fmt::format("{:g} kg was read, but {} pieces of {:g} g are {:g} kg", *kg,
                                  *dispatch.pieces, *piece_g, *weighed),
                      "Correct one of the three");
    if (kg || weighed)
        dispatch.mass = to_grams(Kilograms{kg ? *kg : *weighed});
}

Refusal too_much(const Dispatch& dispatch, const Baked& baked, const std::string& what, std::string remedy) {
    const auto kg = [](Grams mass) { return fixed(to_kilograms(mass).value(), 1); };
    return {"Weight",
            fmt::format("{} kg after {} kg before are {} kg, but {}", kg(dispatch.mass.value_or(Grams{})),
                        kg(baked.dispatched), kg(baked.dispatched + dispatch.mass.value_or(Grams{})), what),
            std::move(remedy)};
}

} // namespace

Result<Dispatch> accept(const DispatchDraft& draft, Day today) {
    DraftReader reader;
    Dispatch dispatch;
    dispatch.customer = trimmed(draft.customer);
    if (dispatch.customer.empty())
        reader.refuse("Customer", "is empty", "Enter the code of the one it went to");
    read_pieces(draft, dispatch, reader);
    read_mass(draft, dispatch, reader);
    if (trimmed(draft.pieces).empty() && trimmed(draft.kg).empty())
        reader.refuse("Weight", "is empty, and so are the pieces", "Enter kg, pieces or both");
    dispatch.day = reader.day("Day", draft.day).value_or(today);
    if (dispatch.day > today)
        reader.refuse("Day",
                      fmt::format("{} was read, which is after today, {}", iso(dispatch.day), iso(today)),
                      "Enter the day on which it left");
    dispatch.note = trimmed(draft.note);
    dispatch.reason = trimmed(draft.reason);
    if (!reader.refusals.empty())
        return reader.refusals;
    return dispatch;
}

Refusals what_stands_against(const Dispatch& dispatch, const Baked& baked) {
    if (baked.batches == 0)
        return {{"Run", "has no batch in the book: nothing was baked of it", "Log its batches first"}};
    if (!dispatch.mass)
        return {};
    const Grams after = baked.dispatched + *dispatch.mass;
    const auto kg = [](Grams mass) { return fixed(to_kilograms(mass).value(), 1); };
    if (baked.dough > baked.flour && after > baked.dough)
        return {too_much(dispatch, baked, fmt::format("its dough weighed {} kg", kg(baked.dough)),
                         "Correct the weight, or the run")};
    const Grams bread = to_grams(Kilograms{to_kilograms(baked.flour).value() * baked.bread_yield});
    if (after > bread && dispatch.reason.empty())
        return {too_much(dispatch, baked,
                         fmt::format("{} kg of flour give about {} kg of bread, by the plant's yield of {:g}",
                                     kg(baked.flour), kg(bread), baked.bread_yield),
                         "Correct the weight or the run, or say why it is so: the yield is an estimate")};
    return {};
}

} // namespace mellowbin
