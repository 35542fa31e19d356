#include "app/acts/limits.h"
#include "app/acts/settings.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/settings.h"
#include "cli/as_json.h"
#include "cli/as_text.h"
#include "cli/grammar.h"

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
    std::int64_t number = 0;
};

int confirm_limit(Session& session, const LimitTyped& typed) {
    App app(session.set_up());
    app.handle(ConfirmLimit{typed.number});
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
    grammar.command("limits", "Show the limits on oxidants, market by market", show_limits);
    auto limit = grammar.command(
        "confirm-limit", "A qualified person has read this limit's text and answers for it", confirm_limit);
    limit.words.option("number", limit.typed.number, "Its number in the list of limits").required();
    auto set = grammar.command("set", "Change a setting", change_setting);
    set.words.option("key", set.typed.key).required();
    set.words.option("value", set.typed.value).required();
}

} // namespace mellowbin::cli
