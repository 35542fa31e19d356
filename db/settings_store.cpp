#include "db/settings_store.h"

#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

std::vector<Setting> settings_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<Setting> settings;
    connection.query(
        fmt::format("SELECT setting_key, value, unit, who, since FROM setting {}", clause), parameters,
        [&](const Row& row) {
            settings.push_back({row.words(0), row.words(1), row.words(2), row.words(3), row.instant(4)});
        });
    return settings;
}

} // namespace

std::vector<Setting> SettingsStore::all() const {
    return settings_where(
        connection_, "WHERE id IN (SELECT MAX(id) FROM setting GROUP BY setting_key) ORDER BY setting_key",
        {});
}

std::optional<Setting> SettingsStore::find(std::string_view key) const {
    return only(settings_where(connection_, "WHERE setting_key = $1 ORDER BY id DESC LIMIT 1", {key}));
}

std::vector<Setting> SettingsStore::history(std::string_view key) const {
    return settings_where(connection_, "WHERE setting_key = $1 ORDER BY id", {key});
}

void SettingsStore::set(Change& change, std::string_view key, std::string_view value, std::string_view unit) {
    const auto id = next_number(change.connection(), "setting");
    change.connection().execute("INSERT INTO setting (id, setting_key, value, unit, who, since) "
                                "VALUES ($1, $2, $3, $4, $5, $6)",
                                {id, key, value, unit, change.journal_line().who, change.journal_line().at});
    change.touches({RecordKind::setting, id});
}

} // namespace mellowbin
