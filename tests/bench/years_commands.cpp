#include "measured.h"
#include "plain_sql.h"
#include "years_parts.h"

#include <cstdlib>
#include <exception>
#include <functional>

namespace mellowbin::bench {
namespace {

namespace fs = std::filesystem;
using Words = std::vector<std::string>;

/// The run of today with the most batches left to confirm.
std::string run_of_today(const fs::path& book) {
    return PlainBook(book).words(fmt::format(
        "SELECT r.code FROM run r JOIN assignment a ON a.run_id = r.id WHERE r.day = '{}' ORDER BY "
        "r.batches - (SELECT COUNT(*) FROM batch b WHERE b.run_id = r.id)",
        iso(bench_day())));
}

Words words_for(const Measured& measured, const fs::path& book, const Words& command) {
    Words words{measured.program};
    words.insert(words.end(), command.begin(), command.end());
    words.insert(words.end(), {"--book", book.string(), "--today", iso(bench_day()), "--who", "bench"});
    return words;
}

/// What a command takes on each book; nothing for one on which it failed, which is said.
struct ByBookRan {
    ByBook ms, mb, first_frame_s;
};

void add(ByBookRan& all, const Ran& ran) {
    all.ms.emplace_back(1000 * ran.seconds);
    all.mb.emplace_back(ran.megabytes);
    // "…; the first frame was there 0.31 s after the start"
    constexpr std::string_view before = "the first frame was there ";
    const auto at = ran.out.find(before);
    all.first_frame_s.push_back(
        at == std::string::npos ? std::nullopt
                                : std::optional(std::strtod(ran.out.c_str() + at + before.size(), nullptr)));
}

ByBookRan run_on_all(const Measured& measured, const std::function<Words(const fs::path& book)>& command) {
    ByBookRan all;
    for (const auto& book : measured.books) {
        try {
            add(all, median_run(words_for(measured, book, command(book)), measured.times));
        } catch (const std::exception& error) {
            fmt::print("  {}: {}\n", book.filename().string(), error.what());
            all.ms.emplace_back();
            all.mb.emplace_back();
            all.first_frame_s.emplace_back();
        }
    }
    return all;
}

/// Books that are written to are copied first: a second run of the benchmark finds them as they were.
class Copies {
public:
    explicit Copies(const Measured& measured) : measured_(measured) {
        for (auto& book : measured_.books) {
            const fs::path copy = book.string() + ".copy";
            fs::copy_file(book, copy, fs::copy_options::overwrite_existing);
            book = copy;
        }
    }
    Copies(const Copies&) = delete;
    Copies& operator=(const Copies&) = delete;
    ~Copies() {
        std::error_code ignored;
        for (const auto& book : measured_.books)
            for (const char* tail : {"", "-wal", "-shm"})
                fs::remove(book.string() + tail, ignored);
    }
    [[nodiscard]] const Measured& measured() const { return measured_; }

private:
    Measured measured_;
};

constexpr Goal as_the_demo_ms{1.5, 20};

} // namespace

void measure_commands(YearsTable& table, const Measured& measured) {
    const auto line = [&](const char* name, const ByBookRan& ran) {
        table.line(name, "ms", ran.ms, as_the_demo_ms);
        table.line(fmt::format("{}: memory", name), "MB", ran.mb);
    };
    line("card", run_on_all(measured, [](const fs::path& book) {
             return Words{"card", run_of_today(book)};
         }));
    line("lots", run_on_all(measured, [](const fs::path&) { return Words{"lots"}; }));
    line("readiness", run_on_all(measured, [](const fs::path&) { return Words{"readiness"}; }));
    const Copies copies(measured);
    line("confirm-batch", run_on_all(copies.measured(), [](const fs::path& book) {
             return Words{"confirm-batch", run_of_today(book)};
         }));
}

void measure_window(YearsTable& table, const Measured& measured) {
    if (!std::getenv("DISPLAY")) {
        fmt::print("window: no display, not measured (xvfb-run brings one)\n");
        return;
    }
    const auto picture = (fs::temp_directory_path() / "mellowbin-years-bench.png").string();
    const auto ran = run_on_all(measured, [&](const fs::path&) {
        return Words{"window", "--shot", picture};
    });
    fs::remove(picture);
    table.line("window: first frame", "s", ran.first_frame_s, Goal{0, 0.4});
    table.line("window: memory", "MB", ran.mb, Goal{1.5, 40});
}

} // namespace mellowbin::bench
