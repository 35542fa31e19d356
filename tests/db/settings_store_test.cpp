#include "book_support.h"
#include "db/settings_store.h"

namespace mellowbin {
namespace {

void set(Connection& book, std::string_view key, std::string_view value, std::string_view unit, Instant at) {
    auto say = line("A setting was changed");
    say.at = at;
    Change change(book, say);
    SettingsStore(book).set(change, key, value, unit);
    change.commit();
}

} // namespace

TEST_CASE("The newest value of a setting holds, and what it was before stays in the book") {
    SqliteConnection book(":memory:");
    const SettingsStore settings(book);
    CHECK_FALSE(settings.find("room_temperature"));
    set(book, "room_temperature", "22", "°C", noon);
    set(book, "market", "EU", "", noon);
    set(book, "room_temperature", "24,5", "°C", noon); // within the same second
    const Setting now{"room_temperature", "24,5", "°C", "Ada Example", noon};
    CHECK(settings.find("room_temperature") == now);
    CHECK(settings.all() == std::vector<Setting>{{"market", "EU", "", "Ada Example", noon}, now});
    const auto history = settings.history("room_temperature");
    REQUIRE(history.size() == 2);
    CHECK(history[0].value == "22");
    CHECK(history[1] == now);
}

} // namespace mellowbin
