#include "ui/views/screens.h"

#include "app/acts/looking.h"
#include "app/acts/mills.h"
#include "app/acts/read_scan.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

namespace mellowbin::views {
namespace {

using ui::Role;

/// What waits on a screen: how many, of what, and how pressing it is.
struct Waiting {
    int app::Overview::*count = nullptr;
    std::string_view words = {};
    Role role = Role::mind;
};

struct ScreenTraits {
    Screen screen;
    std::string_view name, key;
    Waiting waiting;
    void (*draw)(Screens&, const Models&, app::Intents&);
    void (*turned_to)(Screens&) = nullptr; ///< what gets the focus
    /// What a scan is for here; null: its lot is found, as by the search.
    void (*take_scan)(Screens&, const Models&, const app::Scanned&, app::Intents&) = nullptr;
};

constexpr std::array table{
    ScreenTraits{Screen::intake,
                 "Intake",
                 "F1",
                 {},
                 [](Screens& s, const Models& m, app::Intents& out) {
                     draw(s.intake, m.intake, m.notice, m.overview, out);
                 },
                 [](Screens& s) { s.intake.wants_focus = true; },
                 [](Screens& s, const Models& m, const app::Scanned& scan, app::Intents& out) {
                     take_scan(s.intake, scan.bytes, m.notice, out);
                 }},
    ScreenTraits{Screen::lots,
                 "Lots",
                 "F2",
                 {&app::Overview::to_judge, "in quarantine"},
                 [](Screens& s, const Models& m, app::Intents& out) {
                     draw(s.lots, m.lots, m.readiness, m.notice, out);
                 },
                 [](Screens& s) { s.lots.wants_focus = true; }},
    ScreenTraits{Screen::readiness,
                 "Readiness",
                 "F3",
                 {&app::Overview::past_best, "past best"},
                 [](Screens& s, const Models& m, app::Intents& out) {
                     draw(s.readiness, m.readiness, m.notice, m.overview, out);
                 }},
    ScreenTraits{Screen::plan,
                 "Plan",
                 "F4",
                 {&app::Overview::short_runs, "short", Role::stop},
                 [](Screens& s, const Models& m, app::Intents& out) {
                     draw(s.plan, m.plan, m.lots, m.notice, m.overview, out);
                 }},
    ScreenTraits{Screen::mixer,
                 "Mixer",
                 "F5",
                 {&app::Overview::batches_today, "to mix", Role::ink},
                 [](Screens& s, const Models& m, app::Intents& out) {
                     draw(s.mixer, m.mixer, m.notice, m.overview, out);
                 },
                 [](Screens& s) { s.mixer.scan.wants_focus = true; },
                 [](Screens& s, const Models& m, const app::Scanned& scan, app::Intents& out) {
                     take_scan(s.mixer, m.mixer, scan.bytes, m.notice, out);
                 }},
    ScreenTraits{Screen::trace,
                 "Trace",
                 "Ctrl+6",
                 {},
                 [](Screens& s, const Models& m, app::Intents& out) {
                     draw(s.trace, m.trace, m.notice, m.overview, out);
                 },
                 [](Screens& s) { s.trace.wants_focus = true; }},
    ScreenTraits{Screen::plant,
                 "Plant",
                 "Ctrl+7",
                 {},
                 [](Screens& s, const Models& m, app::Intents& out) {
                     draw(s.plant, m.plant, m.settings, m.notice, m.overview, out);
                 },
                 [](Screens& s) { s.plant.wants_focus = true; }},
    ScreenTraits{Screen::settings,
                 "Settings",
                 "F6",
                 {&app::Overview::unconfirmed_limits, "to confirm"},
                 [](Screens& s, const Models& m, app::Intents& out) {
                     draw(s.settings, m.settings, m.notice, m.overview, out);
                 },
                 nullptr,
                 [](Screens& s, const Models&, const app::Scanned& scan, app::Intents& out) {
                     if (s.settings.shows_scanner())
                         out.emplace_back(app::JudgeTestScan{scan});
                     else
                         out.emplace_back(app::ReadScan{scan.bytes});
                 }},
};

constexpr bool is_by_place() {
    for (std::size_t i = 0; i < table.size(); ++i)
        if (table[i].screen != static_cast<Screen>(i))
            return false;
    return true;
}
static_assert(is_by_place());

const ScreenTraits& traits(Screen screen) { return table[static_cast<std::size_t>(screen)]; }

std::string waiting_words(const Waiting& waiting, const app::Overview& overview) {
    const int count = waiting.count ? overview.*waiting.count : 0;
    return count > 0 ? fmt::format("{} {}", count, waiting.words) : std::string();
}

/// Where an empty screen would wait for what is still to be set up, the way to it stands on top.
bool offers_setting_up(Screen screen) { return screen == Screen::intake || screen == Screen::plan; }

void draw_screen(Screens& screens, const Models& models, app::Intents& out) {
    if (screens.assistant.is_open)
        return draw(screens.assistant, models.setting_up, models.overview.today, models.notice, out);
    if (offers_setting_up(screens.current()))
        draw_offer(screens.assistant, models.setting_up);
    traits(screens.current()).draw(screens, models, out);
}

/// To the screen that is shown. A question that stands open is about what it would change.
void hand_on_scan(Screens& screens, const Models& models, app::Intents& out) {
    if (models.notice.kind == app::Notice::Kind::failed)
        return; // it stands in front; the scan is read behind it
    const auto scan = screens.take_scan();
    if (!scan)
        return;
    const auto& own = traits(screens.current()).take_scan;
    if (ui::is_asked())
        out.emplace_back(app::ReadScan{scan->bytes, app::ReadScan::At::behind_a_question});
    else if (own && !screens.assistant.is_open)
        own(screens, models, *scan, out);
    else
        out.emplace_back(app::ReadScan{scan->bytes});
}

/// The answer to a search leads to the screen that shows it.
void follow(Screens& screens, const app::Notice& notice) {
    if (notice.number == screens.notice_seen)
        return;
    screens.notice_seen = notice.number;
    const auto screen = screen_named(notice.screen);
    if (!screen)
        return;
    screens.assistant.is_open = false;
    screens.show(*screen);
    if (screen == Screen::lots)
        screens.lots.shows_sheet = true; // also of the lot that was closed before
}

/// The record of a lot's mill stands on Plant.
void follow_to_mill(Screens& screens, const app::Intent& intent) {
    const auto* act = intent.as<app::ShowMillRecord>();
    if (!act || !act->mill.is_known() || screens.current() != Screen::lots)
        return;
    screens.plant.show_record(act->mill);
    screens.show(Screen::plant);
}

/// By its name on the rail or its key: also the screen that is shown begins where its keys are awaited.
void turn_to(Screens& screens, Screen screen) {
    screens.assistant.is_open = false;
    if (screen == screens.current() && traits(screen).turned_to)
        traits(screen).turned_to(screens);
    screens.show(screen);
}

/// What a plant chose beside its records stands on Settings.
void follow(Screens& screens, PlantView& plant) {
    if (!std::exchange(plant.leads_to_choices, false))
        return;
    screens.settings.show_choices();
    screens.show(Screen::settings);
}

/// A run opened on another screen is read on the mixer's.
void follow(Screens& screens, const app::Intent& intent) {
    if (intent.as<app::OpenRun>())
        screens.show(Screen::mixer);
}

} // namespace

std::string_view name_of(Screen screen) { return traits(screen).name; }

std::optional<Screen> screen_named(std::string_view name) {
    const auto same = [](unsigned char a, unsigned char b) { return std::tolower(a) == std::tolower(b); };
    for (const auto& one : table)
        if (std::equal(name.begin(), name.end(), one.name.begin(), one.name.end(), same))
            return one.screen;
    return {};
}

std::string screen_names() {
    std::string names;
    for (const auto& one : table)
        names += fmt::format("{}{}", names.empty() ? "" : &one == &table.back() ? " and " : ", ", one.name);
    return names;
}

void Screens::show(Screen screen) {
    if (screen == current_)
        return;
    current_ = screen;
    if (traits(screen).turned_to)
        traits(screen).turned_to(*this);
}

void Screens::drop_file(const std::string& path) {
    assistant.is_open = false;
    show(Screen::intake);
    intake.drop(path);
}

std::optional<app::Scanned> Screens::take_scan() {
    if (scans_.empty())
        return {};
    auto scan = std::move(scans_.front());
    scans_.pop_front();
    return scan;
}

void draw(Screens& screens, const Models& models, app::Intents& out) {
    follow(screens, models.notice);
    hand_on_scan(screens, models, out);
    std::array<std::string, table.size()> waits;
    std::array<ui::RailItem, table.size()> rail;
    for (std::size_t i = 0; i < table.size(); ++i) {
        waits[i] = waiting_words(table[i].waiting, models.overview);
        rail[i] = {table[i].name, table[i].key, waits[i], table[i].waiting.role};
    }
    const auto before = out.size();
    const auto shown = screens.current();
    const auto around = shown == Screen::mixer && screens.mixer.is_bowl && !screens.assistant.is_open
                            ? ui::Around::nothing
                            : ui::Around::all;
    const auto chosen = draw(
        screens.workbench, rail, static_cast<int>(shown), models.notice, models.overview, around,
        [&] {
            if (around == ui::Around::all)
                draw_kept(screens.kept);
            draw_screen(screens, models, out);
        },
        out);
    draw_kept_questions(screens.kept);
    if (chosen)
        turn_to(screens, static_cast<Screen>(*chosen));
    for (std::size_t i = before; i < out.size(); ++i) {
        follow(screens, out[i]);
        follow_to_mill(screens, out[i]);
    }
    // What is looked at nowhere is not made anew with every change of the book.
    if (shown != Screen::plant && screens.current() != Screen::plant)
        leave(screens.plant.mill_record, out);
    if (shown != Screen::trace && screens.current() != Screen::trace)
        leave(screens.trace, out);
    if (shown != Screen::intake && screens.current() != Screen::intake)
        leave(screens.intake.own_test, out);
    follow(screens, screens.plant);
}

} // namespace mellowbin::views
