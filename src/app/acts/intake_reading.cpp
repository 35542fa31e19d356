#include "app/acts/intake.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "core/typed_text.h"
#include "exchange/bag_scan.h"

#include <algorithm>
#include <array>
#include <filesystem>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;

/// Endings of files that may hold certificates; whether one does is seen when it is read.
bool may_be_certificates(const fs::path& file) {
    static constexpr std::array<std::string_view, 3> endings{".csv", ".tsv", ".txt"};
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

} // namespace

Result<Told> carry_out(State& state, const ReadLabel& intent) {
    const auto words = label_in(intent.scan);
    if (words.lot.empty())
        return Refusal{"Scan", "the label has no lot number", "Type the number, or scan another label"};
    state.intake.label = {};
    state.intake.label.code = words.lot;
    state.intake.label.milled_on = words.milled_on;
    state.intake.label.best_before = words.best_before;
    state.intake.label.mass_kg = words.kg;
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
