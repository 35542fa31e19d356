#include "ui/views/workbench.h"

#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/models/overview.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

namespace mellowbin::views {
namespace {

using ui::Role;

constexpr std::array<std::string_view, screen_count> names{"Intake", "Lots",  "Readiness",
                                                           "Plan",   "Mixer", "Settings"};

std::string waiting(int count, std::string_view words) {
    return count > 0 ? fmt::format("{} {}", count, words) : std::string();
}

std::array<std::string, screen_count> waiting_words(const app::Overview& overview) {
    return {std::string(),
            waiting(overview.to_judge, "to judge"),
            waiting(overview.past_best, "past best"),
            waiting(overview.short_runs, "short"),
            waiting(overview.batches_today, "to mix"),
            waiting(overview.unconfirmed_limits, "to confirm")};
}

constexpr std::array<Role, screen_count> waiting_roles{Role::mind, Role::mind, Role::mind,
                                                       Role::stop, Role::ink,  Role::mind};
constexpr std::array<std::string_view, screen_count> keys{"F1", "F2", "F3", "F4", "F5", "F6"};

ui::Notice notice_line(const app::Notice& notice) {
    switch (notice.kind) {
    case app::Notice::Kind::done:
        return {notice.words, Role::good, notice.undo};
    case app::Notice::Kind::refused:
        return {notice.words, Role::stop, {}};
    case app::Notice::Kind::failed: // has a box of its own
    case app::Notice::Kind::none:
        return {};
    }
    return {};
}

void failure(const app::Notice& notice, app::Intents& out) {
    const bool is_put_away = ui::failure_box({.title = notice.words,
                                              .meaning = notice.meaning,
                                              .remedy = "Mend the cause, then do it again.",
                                              .details = notice.details});
    if (is_put_away)
        out.emplace_back(app::PutAwayNotice{});
}

} // namespace

std::string_view name_of(Screen screen) { return names[static_cast<std::size_t>(screen)]; }

std::optional<Screen> screen_named(std::string_view name) {
    const auto same = [&](std::string_view other) {
        return std::equal(
            name.begin(), name.end(), other.begin(), other.end(),
            [](unsigned char a, unsigned char b) { return std::tolower(a) == std::tolower(b); });
    };
    const auto at = std::find_if(names.begin(), names.end(), same);
    if (at == names.end())
        return {};
    return static_cast<Screen>(at - names.begin());
}

void draw(WorkbenchView& view, const app::Notice& notice, const app::Overview& overview, ui::Body body,
          app::Intents& out) {
    const auto waits = waiting_words(overview);
    std::array<ui::RailItem, screen_count> rail;
    for (std::size_t i = 0; i < rail.size(); ++i)
        rail[i] = {names[i], keys[i], waits[i], waiting_roles[i]};
    const ui::TopLine top{.day_and_time = overview.clock,
                          .person = overview.person,
                          .book = overview.book,
                          .backup = overview.last_copy,
                          .running = overview.running,
                          .search = &view.search};
    const auto events = ui::workbench(rail, static_cast<int>(view.current), top, notice_line(notice), body);
    if (events.screen)
        view.current = static_cast<Screen>(*events.screen);
    if (events.searched && !view.search.empty())
        out.emplace_back(app::Search{view.search});
    if (events.undo)
        out.insert(out.end(), notice.undoing.begin(), notice.undoing.end());
    if (events.notice_put_away)
        out.emplace_back(app::PutAwayNotice{});
    if (notice.kind == app::Notice::Kind::failed)
        failure(notice, out);
}

} // namespace mellowbin::views
