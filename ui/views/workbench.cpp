#include "ui/views/workbench.h"

#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/models/overview.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <string_view>
#include <vector>

namespace mellowbin::views {
namespace {

using ui::Role;

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

/// What was done or refused is told for a while: refusals stand at their fields, too.
bool has_had_its_time(WorkbenchView& view, const app::Notice& notice, bool is_held) {
    if (view.notice != notice.number)
        view.notice_seconds = 0;
    view.notice = notice.number;
    const bool is_a_line =
        notice.kind == app::Notice::Kind::done || notice.kind == app::Notice::Kind::refused;
    if (!is_a_line || notice.words.empty())
        return false;
    view.notice_seconds = is_held ? 0 : view.notice_seconds + ui::seconds_since_last_frame();
    return view.notice_seconds > ui::notice_seconds;
}

void failure(const app::Notice& notice, app::Intents& out) {
    const bool is_put_away = ui::failure_box({.title = notice.words,
                                              .meaning = notice.meaning,
                                              .remedy = notice.remedy,
                                              .details = notice.details});
    if (is_put_away)
        out.emplace_back(app::PutAwayNotice{});
}

/// Of several that a search may have meant a person takes one.
void found(const app::Found& all, app::Intents& out) {
    std::vector<ui::Offer> offered;
    for (const auto& one : all.all)
        offered.push_back({one.name, one.details});
    const auto title = fmt::format("\"{}\": which one?", all.words);
    const auto answer = ui::offers(
        {.title = title,
         .all = offered,
         .note = all.are_more ? "There are more lots: type more of the number." : std::string_view()});
    if (answer.chosen) {
        const auto& one = all.all[*answer.chosen];
        out.emplace_back(app::OpenFound{one.lot, one.run});
    } else if (answer.put_away) {
        out.emplace_back(app::PutAwayFound{});
    }
}

} // namespace

std::optional<int> draw(WorkbenchView& view, std::span<const ui::RailItem> rail, int current,
                        const app::Notice& notice, const app::Overview& overview, ui::Around around,
                        ui::Body body, app::Intents& out) {
    const ui::TopLine top{.day_and_time = overview.clock,
                          .person = overview.person,
                          .book = overview.book,
                          .running = overview.running.empty() ? overview.elsewhere : overview.running,
                          .search = &view.search};
    const auto events = ui::workbench(rail, current, top, notice_line(notice), body, around);
    if (events.searched && !view.search.empty())
        out.emplace_back(app::Search{view.search});
    if (events.undo)
        out.insert(out.end(), notice.undoing.begin(), notice.undoing.end());
    if (events.notice_put_away || has_had_its_time(view, notice, events.notice_is_held))
        out.emplace_back(app::PutAwayNotice{});
    if (notice.kind == app::Notice::Kind::failed)
        failure(notice, out);
    else if (!overview.found.all.empty())
        found(overview.found, out);
    return events.screen;
}

} // namespace mellowbin::views
