#include "app/book/settings.h"

#include "app/acts/state.h"
#include "db/limit_store.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace mellowbin::app {
namespace {

const LimitRow* limit_row(const App::State& state, std::int64_t id) {
    const auto at = std::find_if(state.book.limits.begin(), state.book.limits.end(),
                                 [&](const LimitRow& row) { return row.id == id; });
    return at == state.book.limits.end() ? nullptr : &*at;
}

std::string about(const LimitRow& row) { return fmt::format("{}, {}", name_of(row.substance), row.market); }

Refusal unknown_row() { return {"Limit", "is not in the book", "Choose one from the list"}; }

bool is_time_zone(const std::string& name) {
    try {
        return name.empty() || date::locate_zone(name) != nullptr;
    } catch (const std::runtime_error&) {
        return false;
    }
}

} // namespace

Result<Told> run(App::State& state, const ConfirmLimit& intent) {
    const LimitRow* row = limit_row(state, intent.row);
    if (!row)
        return unknown_row();
    const auto words = fmt::format("Limit confirmed: {} ({})", about(*row), row->source);
    Change change(*state.connection, state.line("confirm_limit", "law " + row->market, words));
    const auto done = LimitStore(*state.connection).confirm(change, intent.row);
    if (!done)
        return change.refuse(done.refusals());
    change.commit();
    return Told{words, Touched::law, "Undo: mark it unconfirmed", {DoubtLimit{intent.row}}};
}

Result<Told> run(App::State& state, const DoubtLimit& intent) {
    const LimitRow* known = limit_row(state, intent.row);
    if (!known)
        return unknown_row();
    LimitRow row = *known;
    row.is_confirmed = false;
    row.confirmed_by.clear();
    const auto words = fmt::format("Limit marked unconfirmed: {}", about(row));
    Change change(*state.connection, state.line("doubt_limit", "law " + row.market, words));
    const auto done = LimitStore(*state.connection).save(change, row);
    if (!done)
        return change.refuse(done.refusals());
    change.commit();
    return Told{words, Touched::law, "Undo: confirm it again", {ConfirmLimit{intent.row}}};
}

Result<Told> run(App::State& state, const ChangeSetting& intent) {
    const SettingTraits* setting = setting_traits(intent.key);
    if (!setting)
        return Refusal{"Setting", fmt::format("\"{}\" is not known", intent.key), "Choose one from the list"};
    auto value = accept_setting(*setting, intent.value);
    if (!value)
        return value.refusals();
    if (intent.key == "time_zone" && !is_time_zone(*value)) {
        return Refusal{std::string(setting->label), fmt::format("\"{}\" is not in the zone tables", *value),
                       "Enter a name such as Europe/Lisbon"};
    }
    const std::string before = Choices(state.book.settings).words(intent.key);
    const auto words = fmt::format("{}: {} (was {})", setting->label, value->empty() ? "empty" : *value,
                                   before.empty() ? "empty" : before);
    Change change(*state.connection, state.line("change_setting", "setting " + intent.key, words));
    SettingsStore(*state.connection).set(change, intent.key, *value, setting->unit);
    change.commit();
    return Told{words,
                Touched::choices,
                fmt::format("Undo: {} again {}", setting->label, before.empty() ? "empty" : before),
                {ChangeSetting{intent.key, before}}};
}

} // namespace mellowbin::app
