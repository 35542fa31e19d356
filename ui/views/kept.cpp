#include "ui/views/kept.h"

#include "ui/views/common/keep.h"
#include "ui/views/intake/kept.h"
#include "ui/views/lots/kept.h"
#include "ui/views/mixer/kept.h"
#include "ui/views/plan/kept.h"
#include "ui/views/plant/kept.h"
#include "ui/views/readiness/kept.h"
#include "ui/views/settings/kept.h"
#include "ui/views/trace/kept.h"
#include "ui/views/welcome/kept.h"

#include <array>
#include <optional>

namespace mellowbin::views {
namespace {

struct KeptScreen {
    std::optional<Screen> screen; ///< that is shown when it is taken up; none: it stands over all of them
    std::string_view path;        ///< before its fields; stays what it is, whatever the screen is called
    void (*keep)(KeptWriter&, const Screens&, const Models&);
    void (*take_up)(KeptReader&, Screens&, const Models&, app::Intents&);
};

constexpr std::array table{
    KeptScreen{
        Screen::intake, "intake",
        [](KeptWriter& k, const Screens& s, const Models&) { keep_begun(k, s.intake); },
        [](KeptReader& k, Screens& s, const Models&, app::Intents& out) { take_up(k, s.intake, out); }},
    KeptScreen{Screen::lots, "lots",
               [](KeptWriter& k, const Screens& s, const Models& m) { keep_begun(k, s.lots, m.lots); },
               [](KeptReader& k, Screens& s, const Models&, app::Intents& out) { take_up(k, s.lots, out); }},
    KeptScreen{
        Screen::readiness, "readiness",
        [](KeptWriter& k, const Screens& s, const Models& m) { keep_begun(k, s.readiness, m.readiness); },
        [](KeptReader& k, Screens& s, const Models&, app::Intents& out) { take_up(k, s.readiness, out); }},
    KeptScreen{Screen::plan, "plan",
               [](KeptWriter& k, const Screens& s, const Models& m) { keep_begun(k, s.plan, m.plan); },
               [](KeptReader& k, Screens& s, const Models& m, app::Intents&) { take_up(k, s.plan, m.plan); }},
    KeptScreen{Screen::mixer, "mixer",
               [](KeptWriter& k, const Screens& s, const Models& m) { keep_begun(k, s.mixer, m.mixer); },
               [](KeptReader& k, Screens& s, const Models&, app::Intents& out) { take_up(k, s.mixer, out); }},
    KeptScreen{Screen::trace, "trace",
               [](KeptWriter& k, const Screens& s, const Models&) { keep_begun(k, s.trace); },
               [](KeptReader& k, Screens& s, const Models&, app::Intents&) { take_up(k, s.trace); }},
    KeptScreen{
        Screen::plant, "plant",
        [](KeptWriter& k, const Screens& s, const Models& m) { keep_begun(k, s.plant, m.plant, m.settings); },
        [](KeptReader& k, Screens& s, const Models&, app::Intents&) { take_up(k, s.plant); }},
    KeptScreen{{},
               "assistant",
               [](KeptWriter& k, const Screens& s, const Models&) { keep_begun(k, s.assistant); },
               [](KeptReader& k, Screens& s, const Models&, app::Intents&) { take_up(k, s.assistant); }},
    KeptScreen{
        Screen::settings, "settings",
        [](KeptWriter& k, const Screens& s, const Models& m) { keep_begun(k, s.settings, m.settings); },
        [](KeptReader& k, Screens& s, const Models& m, app::Intents&) {
            take_up(k, s.settings, m.settings);
        }},
};

constexpr std::string_view shown = "shown";

} // namespace

KeptText kept_of(const Screens& screens, const Models& models) {
    KeptText all;
    for (const auto& one : table) {
        KeptText kept;
        KeptWriter writer(kept);
        writer.within(one.path, [&] { one.keep(writer, screens, models); });
        if (kept.is_empty())
            continue;
        all.begun.insert(all.begun.end(), kept.begun.begin(), kept.begun.end());
        all.fields.merge(kept.fields);
        // The screen that is shown, where something of it is begun; else the first.
        if (one.screen == screens.current() || !all.fields.contains(std::string(shown)))
            all.fields.insert_or_assign(std::string(shown), std::string(one.path));
    }
    return all;
}

void take_up(Screens& screens, const Models& models, const KeptText& kept, app::Intents& out) {
    KeptReader reader(kept);
    std::string first;
    reader(shown, first);
    std::optional<Screen> leads_to;
    for (const auto& one : table) {
        if (!reader.has(one.path))
            continue;
        app::Intents opens;
        reader.within(one.path, [&] { one.take_up(reader, screens, models, opens); });
        // What is opened last is looked at: of the screen that is shown.
        out.insert(one.path == first ? out.end() : out.begin(), opens.begin(), opens.end());
        if (one.screen && (one.path == first || !leads_to))
            leads_to = one.screen;
    }
    if (leads_to)
        screens.show(*leads_to);
}

} // namespace mellowbin::views
