#include "ui/views/intake/file_choice.h"

#include "app/acts/intake.h"
#include "ui/widgets/ui.h"

#include <algorithm>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

constexpr std::int64_t up = 0; ///< the row that leads out of the folder

std::string joined(const std::string& folder, const std::string& name) {
    return folder + (folder.ends_with('/') ? "" : "/") + name;
}

std::string parent_of(const std::string& folder) {
    const auto at = folder.find_last_of('/');
    return at == std::string::npos || at == 0 ? std::string("/") : folder.substr(0, at);
}

const app::FolderList::Entry* chosen(const FileChoice& choice, const app::FolderList& folder) {
    const auto at = choice.list.selected.value_or(up) - 1;
    return at < 0 || at >= static_cast<std::int64_t>(folder.entries.size())
               ? nullptr
               : &folder.entries[static_cast<std::size_t>(at)];
}

bool entries_table(FileChoice& choice, const app::FolderList& folder) {
    static constexpr ui::Column columns[] = {
        {.head = "Name", .sample = "certificates-2026-11.csv", .stretch = 1, .sortable = false},
        {.head = "What it is", .sample = "certificates?", .sortable = false},
    };
    const auto write = [&](std::size_t i, ui::RowWriter& row) {
        const auto* entry = i == 0 ? nullptr : &folder.entries[i - 1];
        row.cell(entry ? entry->name : "..");
        row.cell(!entry ? "one folder up" : entry->is_folder ? "folder" : "file", ui::Role::quiet);
    };
    const auto events = ui::table({.name = "Folders and files",
                                   .columns = columns,
                                   .rows = folder.entries.size() + 1,
                                   .record = [](std::size_t i) { return static_cast<std::int64_t>(i); },
                                   .write_row = write,
                                   .density = ui::Density::close,
                                   .height = 15_em},
                                  choice.list);
    return events.opened;
}

} // namespace

void FileChoice::open(app::Intents& out) {
    is_open = true;
    wants_focus = 2; // the question takes it for itself in its first frame
    out.emplace_back(app::LookIntoFolder{});
}

std::optional<std::string> draw(FileChoice& choice, const app::FolderList& folder, app::Intents& out) {
    if (!choice.is_open)
        return {};
    if (choice.seen != folder.path || !choice.list.selected) {
        choice.seen = folder.path;
        choice.list.selected = folder.entries.empty() ? up : up + 1;
        choice.list.show_selected = true;
    }
    bool is_opened = false;
    const auto* entry = chosen(choice, folder);
    const bool is_folder = !entry || entry->is_folder;
    const auto answer =
        ui::ask({.title = "Which certificate file is to be read?",
                 .harmless = "Read none",
                 .deed = is_folder ? "Open the folder" : "Read this file"},
                [&] {
                    ui::paragraph(folder.path, {.weight = ui::Weight::bold});
                    if (!folder.trouble.empty())
                        ui::status(ui::Role::stop, folder.trouble);
                    ui::hint("Arrows choose, Enter opens. A file may be dropped on the window, too.");
                    if (choice.wants_focus > 0 && choice.wants_focus-- > 0)
                        ui::focus("Folders and files");
                    is_opened = entries_table(choice, folder);
                });
    if (answer == ui::Answer::harmless)
        choice.is_open = false;
    if (answer != ui::Answer::deed && !is_opened)
        return {};
    const auto* wanted = chosen(choice, folder);
    if (!wanted || wanted->is_folder) {
        out.emplace_back(
            app::LookIntoFolder{wanted ? joined(folder.path, wanted->name) : parent_of(folder.path)});
        return {};
    }
    choice.is_open = false;
    return joined(folder.path, wanted->name);
}

} // namespace mellowbin::views
