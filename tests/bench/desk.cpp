#include "desk.h"

#include "app/acts/notice.h"
#include "app/book/setup.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/plant.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"
#include "db/sqlite_connection.h"
#include "years_books.h"

#include <stdexcept>

namespace mellowbin::bench {
namespace {

app::AppSetup without_the_disk(const std::filesystem::path& book, const std::shared_ptr<Instant>& now) {
    app::Clock clock;
    clock.now = [now] { return *now; };
    clock.time_zone = "UTC";
    app::AppSetup setup{book.string(), "bench", clock};
    setup.open = [](const std::string& path, const Progress&) {
        auto connection = std::make_unique<SqliteConnection>(path);
        connection->query("PRAGMA synchronous = OFF", {}, [](const Row&) {});
        return connection;
    };
    return setup;
}

} // namespace

Desk::Desk(const std::filesystem::path& book)
    : now_(std::make_shared<Instant>(Instant{bench_day()} + std::chrono::hours{12})),
      app_(without_the_disk(book, now_)) {}

void Desk::next_day() { *now_ += Days{1}; }

Day Desk::today() const { return app_.overview().today; }

void Desk::act(const app::Intent& intent) {
    app_.handle(intent);
    const auto& notice = app_.notice();
    if (notice.kind == app::Notice::Kind::refused)
        throw std::runtime_error(in_words(notice.refusals.front()));
    if (notice.kind == app::Notice::Kind::failed)
        throw std::runtime_error(notice.words + " " + notice.details);
}

void Desk::draw() {
    app::Intents did;
    frame_.begin();
    views::draw(screens_,
                {app_.notice(), app_.overview(), app_.intake(), app_.lots(), app_.readiness(), app_.plan(),
                 app_.mixer(), app_.plant(), app_.settings(), app_.setting_up()},
                did);
    frame_.end();
}

} // namespace mellowbin::bench
