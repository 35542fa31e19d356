#include "app/acts/batches.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/models/card.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "db/journal_store.h"
#include "db/sqlite_connection.h"
#include "desk.h"
#include "measured.h"
#include "years_parts.h"

#include <fmt/format.h>

#include <stdexcept>

namespace mellowbin::bench {
namespace {

namespace fs = std::filesystem;

LotId a_released_lot(Desk& desk) {
    for (const auto& row : desk.app().lots().rows)
        if (row.state == LotState::released && row.stock_kg > 0)
            return row.id;
    throw std::runtime_error("no lot is released");
}

/// A run of today that has so many batches left.
RunId a_run(Desk& desk, int batches) {
    for (const auto& choice : desk.app().mixer().runs) {
        const auto card = desk.app().card_of(choice.run);
        if (card.refusals.empty() && !card.is_finished && card.batches - card.batch + 1 >= batches)
            return choice.run;
    }
    throw std::runtime_error("no run of today has batches left");
}

/// A word that is held and released again, and a batch: milliseconds from the act to its frame.
std::vector<double> acts_on(const fs::path& book, int times) {
    const CopyInMemory copy(book);
    Desk desk(copy.path());
    desk.draw();
    const auto lot = a_released_lot(desk);
    desk.screens().show(views::Screen::lots);
    const double judged = median_ms(times,
                                    [&] {
                                        desk.act(app::HoldLot{lot, "bench"});
                                        desk.draw();
                                        desk.act(app::ReleaseLot{lot, "bench"});
                                        desk.draw();
                                    }) /
                          2;
    const auto run = a_run(desk, times + 1);
    desk.screens().show(views::Screen::mixer);
    const double mixed = median_ms(times, [&] {
        desk.act(app::ConfirmBatch{run, {{}, "", "", "", "", "Ines"}, 0});
        desk.draw();
    });
    return {judged, mixed};
}

/// Where old lots are searched by words.
double search_ms(Desk& desk, const std::string& words, int times) {
    return median_ms(times, [&] { desk.act(app::Search{words}); });
}

/// Where the newest lines of the journal are asked for.
double journal_ms(Connection& book, int times) {
    return median_ms(times, [&] {
        if (JournalStore(book).newest(50).empty())
            throw std::runtime_error("the journal is empty");
    });
}

/// The lot of those years that came in the middle.
std::string an_old_lot(const fs::path& book) {
    SqliteConnection connection(book);
    std::string code;
    connection.query("SELECT code FROM lot ORDER BY id LIMIT 1 OFFSET (SELECT COUNT(*) / 2 FROM lot)", {},
                     [&](const Row& row) { code = row.words(0); });
    return code;
}

std::vector<double> pages_of(const fs::path& book, int times) {
    const CopyInMemory copy(book);
    const auto code = an_old_lot(copy.path());
    SqliteConnection connection(copy.path());
    const double journal = journal_ms(connection, times);
    Desk desk(copy.path());
    return {search_ms(desk, code, times), journal};
}

/// One child a book: the figures at each place of what it gives.
std::vector<ByBook> of_all_books(const Measured& measured, std::size_t figures,
                                 const std::function<std::vector<double>(const fs::path&, int)>& work) {
    std::vector<ByBook> all(figures);
    for (const auto& book : measured.books) {
        const auto found = in_a_child([&] { return work(book, measured.times); });
        for (std::size_t i = 0; i < figures; ++i)
            all[i].push_back(found.size() == figures ? std::optional(found[i]) : std::nullopt);
    }
    return all;
}

std::vector<double> migrated(const fs::path& book) {
    int heard = 0;
    double share = 0;
    const double took = seconds_of([&] {
        const SqliteConnection connection(book, built_in_migrations(), [&](std::string_view, double done) {
            ++heard;
            share = done;
        });
    });
    return {took, static_cast<double>(heard), share};
}

} // namespace

void measure_acts(YearsTable& table, const Measured& measured) {
    const auto all = of_all_books(measured, 2, acts_on);
    table.line("act: hold, release", "ms", all[0], Goal{0, 30});
    table.line("act: confirm a batch", "ms", all[1], Goal{0, 30});
}

void measure_pages(YearsTable& table, const Measured& measured) {
    const auto all = of_all_books(measured, 2, pages_of);
    table.line("search of a lot by words", "ms", all[0], Goal{0, 50});
    table.line("first page of the journal", "ms", all[1], Goal{0, 20});
}

void measure_migration(YearsTable& table, const YearsBooks& books, int years) {
    const fs::path copy = books.of_the_form_before(years).string() + ".copy";
    fs::copy_file(books.of_the_form_before(years), copy, fs::copy_options::overwrite_existing);
    const auto figures = in_a_child([&] { return migrated(copy); });
    table.single(fmt::format("migration of {} years", years), "s",
                 figures.empty() ? std::nullopt : std::optional(figures.front()), 60);
    if (!figures.empty())
        fmt::print("  its progress was told {:.0f} times, at last {:.0f} %\n", figures.at(1),
                   100 * figures.at(2));
    for (const auto& file : fs::directory_iterator(copy.parent_path()))
        if (file.path().string().starts_with(copy.string()))
            fs::remove(file.path());
}

} // namespace mellowbin::bench
