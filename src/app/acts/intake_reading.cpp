#include "app/acts/intake.h"
#include "app/acts/intent.h"
#include "app/acts/scan_reading.h"
#include "app/acts/state.h"
#include "core/decimal.h"
#include "core/typed_text.h"
#include "db/delivery_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <filesystem>
#include <utility>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;

/// Endings of files that may hold certificates; whether one does is seen when it is read.
bool may_be_certificates(const fs::path& file) {
    static constexpr std::array<std::string_view, 5> endings{".csv", ".tsv", ".txt", ".xlsx", ".pdf"};
    const auto ending = lower_case(file.extension().string());
    return std::find(endings.begin(), endings.end(), ending) != endings.end();
}

bool goes_before(const FolderList::Entry& one, const FolderList::Entry& other) {
    if (one.is_folder != other.is_folder)
        return one.is_folder;
    return lower_case(one.name) < lower_case(other.name);
}

/// Throws fs::filesystem_error where it cannot be read.
std::vector<FolderList::Entry> entries_of(const fs::path& folder) {
    std::vector<FolderList::Entry> entries;
    for (const auto& one : fs::directory_iterator(folder, fs::directory_options::skip_permission_denied)) {
        const auto name = one.path().filename().string();
        std::error_code unreadable;
        const bool is_folder = one.is_directory(unreadable);
        if (!name.starts_with('.') && (is_folder || may_be_certificates(one.path())))
            entries.push_back({name, is_folder});
    }
    std::sort(entries.begin(), entries.end(), goes_before);
    return entries;
}

/// What a label says of its lot, as it would be typed. Its weight is one item's where it counts several.
LotDraft draft_of(const exchange::LabelFacts& facts) {
    LotDraft draft;
    draft.code = facts.lot;
    draft.milled_on = facts.produced ? iso(*facts.produced) : "";
    const auto last = facts.best_before ? facts.best_before : facts.expires;
    draft.best_before = last ? iso(*last) : "";
    draft.mass_kg = facts.net && !facts.count ? as_typed(to_kilograms(*facts.net).value()) : "";
    if (!facts.sscc.empty())
        draft.pallets = {{facts.sscc, draft.mass_kg}};
    return draft;
}

/// Why the pallet cannot come with this delivery; nothing: it can, or there is none.
std::optional<Refusal> why_not_this_pallet(const State& state, const std::string& sscc) {
    if (sscc.empty())
        return {};
    if (const auto known = DeliveryStore(*state.connection).pallet(sscc))
        return Refusal{"Pallet", came_before_in_words(sscc, *known), "See which of the two is wrong"};
    return {};
}

LabelDoubt doubt_in_words(const exchange::SeparatorDoubt& doubt, const std::string& scan, Day today) {
    const auto facts = exchange::facts_of({{"10", doubt.otherwise}, doubt.behind}, today);
    std::string day;
    for (const auto& [words, of_label] :
         {std::pair<std::string_view, std::optional<Day>>{"produced", facts.produced},
          {"packed", facts.packed},
          {"best before", facts.best_before},
          {"use by", facts.expires}})
        if (of_label)
            day = fmt::format(", {} {}", words, iso(*of_label));
    return {scan, "Lot " + doubt.as_read, "Lot " + doubt.otherwise + day};
}

void fill(State& state, LotDraft draft, LabelOfPallet pallet) {
    state.intake.label = std::move(draft);
    state.intake.pallet = std::move(pallet);
    ++state.intake.labels;
}

/// A label may be split over two symbols, scanned one behind the other.
constexpr std::chrono::seconds two_symbols_within{15}; // a choice

exchange::Elements with_other_half(State& state, exchange::Elements elements) {
    auto& memory = state.scanned;
    const auto half = std::exchange(memory.half, {});
    if (state.setup.clock.now() - memory.half_at <= two_symbols_within && !half.empty() &&
        exchange::complete_each_other(half, elements))
        for (const auto& one : half)
            if (std::find(elements.begin(), elements.end(), one) == elements.end())
                elements.push_back(one);
    const bool is_whole =
        !exchange::value_of(elements, "10").empty() && exchange::missing_beside(elements).empty();
    if (!is_whole) {
        memory.half = elements;
        memory.half_at = state.setup.clock.now();
    }
    return elements;
}

/// The pallet's number was read before, of this delivery.
bool is_read_before(State& state, const std::string& sscc) {
    auto& memory = state.scanned;
    if (memory.deliveries != state.intake.taken_in)
        memory.pallets.clear();
    memory.deliveries = state.intake.taken_in;
    const bool is_there =
        std::find(memory.pallets.begin(), memory.pallets.end(), sscc) != memory.pallets.end();
    if (!is_there && !sscc.empty())
        memory.pallets.push_back(sscc);
    return is_there;
}

LabelOfPallet pallet_of(const exchange::LabelFacts& facts) {
    return {facts.sscc,      facts.gtin.empty() ? facts.content_gtin : facts.gtin,
            facts.order,     facts.purchased_from,
            facts.net_words, facts.count};
}

/// Fills what the form asks for; of a symbol without a lot, only what says which pallet it is.
Result<Told> read_symbol(State& state, const exchange::Elements& elements) {
    const auto facts = exchange::facts_of(elements, state.today());
    if (facts.lot.empty() && facts.sscc.empty())
        return Refusal{"Scan", "the label has no lot number",
                       "Scan the pallet's other label, too, or type the number"};
    if (const auto why = why_not_this_pallet(state, facts.sscc))
        return *why;
    const bool is_known = is_read_before(state, facts.sscc);
    if (facts.lot.empty()) {
        state.intake.pallet = pallet_of(facts);
        return Told{fmt::format("Pallet {} read{}: scan its label with the lot, too", facts.sscc,
                                is_known ? " once more" : "")};
    }
    fill(state, draft_of(facts), pallet_of(facts));
    return Told{is_known ? fmt::format("Pallet {} of lot {} was scanned before in this delivery", facts.sscc,
                                       facts.lot)
                         : std::string()};
}

} // namespace

Result<Told> carry_out(State& state, const ReadLabel& intent) {
    const auto read = read_bytes(state.book.settings, intent.scan);
    if (!read)
        return read.refusals();
    state.intake.doubt = {};
    state.intake.plain.text.clear();
    if (!read->scan.is_gs1()) {
        if (intent.plain == ReadLabel::Plain::asked_about) {
            state.intake.plain = {read->lot, state.intake.plain.number + 1};
            return Told{};
        }
        LotDraft draft;
        draft.code = read->lot;
        fill(state, std::move(draft), {});
        return Told{};
    }
    auto elements = read->scan.elements;
    if (read->doubt && intent.reading == ReadLabel::Reading::asked) {
        state.intake.doubt = doubt_in_words(*read->doubt, intent.scan, state.today());
        return Told{};
    }
    if (read->doubt && intent.reading == ReadLabel::Reading::parted) {
        elements.back().value = read->doubt->otherwise;
        elements.push_back(read->doubt->behind);
    }
    return read_symbol(state, with_other_half(state, std::move(elements)));
}

Result<Told> carry_out(State& state, const LookIntoFolder& intent) {
    auto& list = state.intake.folder;
    try {
        const fs::path wanted = !intent.path.empty() ? fs::path(intent.path)
                                : list.path.empty()  ? fs::current_path()
                                                     : fs::path(list.path);
        list = {fs::weakly_canonical(wanted).string(), entries_of(wanted), ""};
    } catch (const fs::filesystem_error& error) {
        list.trouble = "\"" + intent.path + "\" cannot be read: " + error.code().message();
    }
    return Told{};
}

} // namespace mellowbin::app
