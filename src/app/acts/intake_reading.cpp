#include "app/acts/intake.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/scanner.h"
#include "core/decimal.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>

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
    return draft;
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

} // namespace

Result<Told> carry_out(State& state, const ReadLabel& intent) {
    const auto scan = exchange::read_scan(intent.scan, scanner_setup(state.book.settings));
    if (!scan)
        return scan.refusals();
    auto elements = scan->elements;
    state.intake.doubt = {};
    if (const auto doubt = exchange::separator_doubt(elements)) {
        if (intent.reading == ReadLabel::Reading::asked) {
            state.intake.doubt = doubt_in_words(*doubt, intent.scan, state.today());
            return Told{};
        }
        if (intent.reading == ReadLabel::Reading::parted) {
            elements.back().value = doubt->otherwise;
            elements.push_back(doubt->behind);
        }
    }
    auto label = scan->is_gs1() ? draft_of(exchange::facts_of(elements, state.today())) : LotDraft();
    if (!scan->is_gs1())
        label.code = scan->text;
    if (label.code.empty())
        return Refusal{"Scan", "the label has no lot number", "Type the number, or scan another label"};
    state.intake.label = std::move(label);
    ++state.intake.labels;
    return Told{};
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
