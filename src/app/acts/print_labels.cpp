#include "app/acts/intent.h"
#include "app/acts/paper_given.h"
#include "app/acts/print_papers.h"
#include "app/acts/state.h"
#include "app/models/papers.h"
#include "core/decimal.h"
#include "core/typed_text.h"
#include "db/delivery_store.h"
#include "print/label.h"

#include <fmt/format.h>

#include <cmath>

namespace mellowbin::app {
namespace {

std::optional<int> read_bags(const std::string& typed, Refusals& refusals) {
    const auto read = read_decimal_within("Bags", typed, {1, 9'999, ""});
    if (!read) {
        append(refusals, read.refusals());
        return {};
    }
    if (!*read)
        return {};
    if (**read != std::floor(**read))
        refusals.push_back({"Bags", fmt::format("\"{}\" is no whole number", excerpt(typed)), "Count them"});
    return static_cast<int>(**read);
}

/// The label with what was said over what the book knows.
Refusals tell_said(const FlourSaid& said, print::LabelledFlour& label) {
    Refusals refusals;
    const auto kg = read_decimal_within("Weight", said.kg, {0.001, 999'999, "kg"});
    if (!kg)
        append(refusals, kg.refusals());
    else if (*kg)
        label.net = to_grams(Kilograms{**kg});
    label.count = read_bags(said.bags, refusals);
    label.gtin = trimmed(said.gtin);
    return refusals;
}

/// Those of the lot, or the one that is asked for.
Result<std::vector<Pallet>> pallets_of(const State& state, const Lot& lot, const std::string& sscc) {
    auto pallets = DeliveryStore(*state.connection).pallets_of(lot.id);
    if (sscc.empty())
        return pallets;
    const auto wanted = sscc_digits(sscc);
    std::erase_if(pallets, [&](const Pallet& one) { return one.sscc != wanted; });
    if (pallets.empty())
        return Refusal{"SSCC", fmt::format("\"{}\" is none of lot {}'s pallets", excerpt(sscc), lot.code),
                       "Leave it empty for all of them"};
    return pallets;
}

std::string file_name(const char* what, const Lot& lot) {
    std::string name = fmt::format("{}-{}", what, lot.code);
    for (auto& c : name)
        if (static_cast<unsigned char>(c) <= ' ' || c == '/' || c == '\\')
            c = '-';
    return name;
}

} // namespace

Result<Told> carry_out(State& state, const PrintPalletLabels& act) {
    const Lot* lot = state.book.lot(act.lot);
    if (!lot)
        return Refusal{"Lot", "is not in the book", "Choose a lot from the list"};
    auto label = labelled(state, *lot);
    const auto page = print::read_page_size(act.to.paper, print::usual_pallet_label);
    const auto pallets = pallets_of(state, *lot, act.sscc);
    Refusals refusals = page ? Refusals() : page.refusals();
    if (!pallets)
        append(refusals, pallets.refusals());
    append(refusals, tell_said(act.said, label));
    if (!refusals.empty())
        return refusals;
    auto all = *pallets;
    if (all.empty())
        all.emplace_back(); // came without numbers, of which none is made up
    std::optional<print::Drawing> labels;
    for (const auto& pallet : all) {
        auto of_pallet = label;
        of_pallet.sscc = pallet.sscc;
        if (!of_pallet.net)
            of_pallet.net = pallet.mass;
        auto made = print::pallet_label(of_pallet, *page, state.setup.clock.now(), state.today());
        if (!made)
            return made.refusals();
        if (labels)
            labels->append(*made);
        else
            labels = *std::move(made);
    }
    return give(
        state, labels->pdf(), *page, act.to,
        {fmt::format("{} of lot {}", labels->pages() == 1 ? "Pallet label" : "Pallet labels", lot->code),
         file_name("pallet-label", *lot)});
}

Result<Told> carry_out(State& state, const PrintBagLabel& act) {
    const Lot* lot = state.book.lot(act.lot);
    if (!lot)
        return Refusal{"Lot", "is not in the book", "Choose a lot from the list"};
    auto label = labelled(state, *lot);
    if (lot->bag.count() > 0)
        label.net = lot->bag;
    const auto page = print::read_page_size(act.to.paper, print::usual_bag_label);
    Refusals refusals = page ? Refusals() : page.refusals();
    append(refusals, tell_said(act.said, label));
    if (!refusals.empty())
        return refusals;
    const auto made = print::bag_label(label, *page, state.setup.clock.now(), state.today());
    if (!made)
        return made.refusals();
    return give(state, made->pdf(), *page, act.to,
                {"Bag label of lot " + lot->code, file_name("bag-label", *lot)});
}

} // namespace mellowbin::app
