#include "app/acts/lots.h"
#include "app/acts/settings.h"
#include "app/book/clock_words.h"
#include "app/book/settings.h"
#include "app/models/journal.h"
#include "app/models/settings.h"
#include "db/sqlite_connection.h"
#include "small_plant.h"
#include "support/catch.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>

using namespace mellowbin;
using namespace mellowbin::app;
using tests::SmallPlant;

namespace {

/// The words with a lower line that the acts' sources have in quotes, but for the names of settings: the keys
/// of the journal's lines.
std::set<std::string> keys_written() {
    std::set<std::string> keys;
    const std::regex quoted("\"([a-z]+(_[a-z]+)+)\"");
    for (const auto& file :
         std::filesystem::directory_iterator(std::filesystem::path(MELLOWBIN_SOURCE) / "src/app/acts")) {
        std::ifstream in(file.path());
        const std::string text{std::istreambuf_iterator<char>(in), {}};
        for (std::sregex_iterator at(text.begin(), text.end(), quoted), end; at != end; ++at)
            if (!setting_traits((*at)[1].str()))
                keys.insert((*at)[1]);
    }
    return keys;
}

bool has_words(const std::string& key) {
    const auto& acts = all_act_words();
    return std::any_of(acts.begin(), acts.end(), [&](const ActWords& act) { return act.key == key; });
}

} // namespace

TEST_CASE("Every kind of act that the program writes into the journal has words, and none that it does not") {
    const auto written = keys_written();
    CHECK(written.size() > 50);
    for (const auto& key : written) {
        INFO(key);
        CHECK(has_words(key));
    }
    for (const auto& act : all_act_words()) {
        INFO(act.key);
        CHECK(written.contains(std::string(act.key)));
        CHECK(act.words.find('_') == std::string_view::npos);
    }
    CHECK(act_in_words("hold_lot") == "Lot put on hold");
    CHECK(act_in_words("wash_silo") == "wash silo"); // of a later version
}

TEST_CASE("What was done to a lot is a sentence in the journal") {
    SmallPlant plant;
    const LotId lot = plant.released_lot(plant.draft("W24-118"));
    plant.app().handle(HoldLot{lot, "insects in a bag"});
    CHECK(plant.said() == "Lot W24-118 put on hold");
    const auto held = plant.app().journal(1).front();
    CHECK(held.words == "Lot W24-118 put on hold: insects in a bag");
    CHECK(held.act == "Lot put on hold");
    CHECK(held.who == "Tomas");
    plant.app().handle(ReleaseLot{lot, "sieved and clean"});
    CHECK(plant.app().journal(1).front().words == "Lot W24-118 released: sieved and clean");
}

TEST_CASE("The journal tells the plant's own time; programs get the instant") {
    SmallPlant plant; // noon of 25 November, UTC
    plant.app().handle(ChangeSetting{"time_zone", "Pacific/Auckland"});
    REQUIRE(plant.was_done());
    plant.open_again();
    const auto line = plant.app().journal(1).front();
    CHECK(line.at == "26 Nov 01:00");
    CHECK(line.instant == "2026-11-25T12:00:00Z");
}

TEST_CASE("A journal line of another year has its year") {
    const auto clock = Clock::standing_at(day_from_iso("2026-11-25"));
    const Instant then = Instant{day_from_iso("2025-11-05")} + std::chrono::hours{9};
    CHECK(time_in_words({clock.now, {}, "UTC"}, then, day_from_iso("2026-11-25")) == "5 Nov 2025 09:00");
    CHECK(time_in_words({clock.now, {}, "UTC"}, then, day_from_iso("2025-12-31")) == "5 Nov 09:00");
}

TEST_CASE("A judgement that an older version wrote reads as a sentence") {
    SmallPlant plant;
    plant.released_lot(plant.draft("W24-118"));
    const auto read = [&](const char* intent, const char* words) {
        static int number = 1000;
        SqliteConnection book(plant.book_path());
        book.execute("INSERT INTO journal (id, at, who, intent, subject, words, detail) "
                     "VALUES ($1, '2026-11-25T12:00:00Z', 'x', $2, '', $3, '')",
                     {std::int64_t{++number}, std::string(intent), std::string(words)});
        return plant.app().journal(1).front().words;
    };
    CHECK(read("release_lot", "Lot A: Held -> Released: ash: right now") == "Lot A released: ash: right now");
    CHECK(read("hold_lot", "Lot A: Released -> Held: insects") == "Lot A put on hold: insects");
    CHECK(read("reject_lot", "Lot A: Awaiting judgement -> Rejected") == "Lot A rejected");
    CHECK(read("move_lot", "Lot A: Bay 1 -> Bay 2") == "Lot A: Bay 1 -> Bay 2");
}
