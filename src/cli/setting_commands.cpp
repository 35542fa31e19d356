#include "app/acts/limits.h"
#include "app/acts/settings.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/settings.h"
#include "cli/as_json.h"
#include "cli/as_text.h"
#include "cli/grammar.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

int show_limits(Session& session) {
    const App app(session.set_up());
    if (session.wants_json())
        session.out() << limits_as_json(app.settings().limits);
    else
        print_limits(session.out(), app.settings().limits);
    return done;
}

struct LimitTyped {
    std::string number;
};

LimitRef limit_of(const LimitTyped& typed) {
    const auto limit = limit_ref_from(typed.number);
    if (!limit)
        throw Failed{
            fmt::format("Limit: \"{}\" was read; its number in mellowbin limits is expected, such as "
                        "12, or P3 for one on propionate",
                        excerpt(typed.number))};
    return *limit;
}

int confirm_limit(Session& session, const LimitTyped& typed) {
    App app(session.set_up());
    app.handle(ConfirmLimit{limit_of(typed)});
    return session.told(app);
}

int doubt_limit(Session& session, const LimitTyped& typed) {
    App app(session.set_up());
    app.handle(DoubtLimit{limit_of(typed)});
    return session.told(app);
}

struct ChangeTyped {
    LimitTyped limit;
    LimitDraft as;
};

/// What is not typed stays.
int change_limit(Session& session, const ChangeTyped& typed) {
    App app(session.set_up());
    ChangeLimit intent{limit_of(typed.limit), typed.as};
    for (const auto& line : app.settings().limits) {
        if (line.id != intent.row)
            continue;
        const auto keep = [](std::string& field, const std::string& before) {
            if (field.empty())
                field = before;
            else if (field == "none")
                field.clear();
        };
        keep(intent.as.figure, line.draft.figure);
        keep(intent.as.status, line.draft.status);
        keep(intent.as.source, line.draft.source);
        keep(intent.as.source_date, line.draft.source_date);
    }
    app.handle(intent);
    return session.told(app);
}

struct SettingTyped {
    std::string key, value;
};

int change_setting(Session& session, const SettingTyped& typed) {
    App app(session.set_up());
    app.handle(ChangeSetting{typed.key, typed.value});
    return session.told(app);
}

} // namespace

void add_setting_commands(Grammar& grammar) {
    grammar.command("limits", "Show the limits on oxidants and propionates, market by market", show_limits);
    auto limit = grammar.command(
        "confirm-limit", "A qualified person has read this limit's text and answers for it", confirm_limit);
    limit.words.option("number", limit.typed.number, "Its number in the list of limits").required();
    auto doubt = grammar.command("doubt-limit", "Take the confirmation of a limit back", doubt_limit);
    doubt.words.option("number", doubt.typed.number, "Its number in the list of limits").required();
    auto change = grammar.command(
        "change-limit", "Correct a limit; it is then not confirmed until somebody confirms it", change_limit);
    change.words.option("number", change.typed.limit.number, "Its number in the list of limits").required();
    change.words.option("--limit", change.typed.as.figure, "mg/kg; none");
    change.words.option("--status", change.typed.as.status,
                        "permitted, permitted_gmp, not_permitted or unclear");
    change.words.option("--source", change.typed.as.source, "Statute and section");
    change.words.option("--source-date", change.typed.as.source_date, "none: not known");
    auto set = grammar.command("set", "Change a setting", change_setting);
    set.words.option("key", set.typed.key).required();
    set.words.option("value", set.typed.value).required();
}

} // namespace mellowbin::cli
