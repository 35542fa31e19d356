#include "years_books.h"

#include "app/demo/book.h"
#include "db/migration.h"
#include "measured.h"
#include "old_years.h"
#include "plain_sql.h"

#include <fstream>
#include <iterator>
#include <unistd.h>

namespace mellowbin::bench {
namespace {

namespace fs = std::filesystem;

int present_form() { return built_in_migrations().back().number; }

/// Made under another name first, so that one that was not finished is never taken for a whole one; in a
/// process of its own, whose memory is then not counted to what is measured.
fs::path made_once(const fs::path& book, int years, const std::function<void(const fs::path&)>& make) {
    if (fs::exists(book))
        return book;
    const fs::path unfinished = book.string() + ".unfinished";
    for (const char* tail : {"", "-wal", "-shm"})
        fs::remove(unfinished.string() + tail);
    OldYears years_before;
    const auto took = in_a_child([&] {
        return std::vector{seconds_of([&] {
            make(unfinished);
            if (years > 0)
                years_before = write_old_years(unfinished, years);
        })};
    });
    if (took.empty())
        throw std::runtime_error("the book could not be made");
    fs::rename(unfinished, book);
    fmt::print("{}: made in {:.0f} s, {:.0f} MB\n", book.filename().string(), took.front(),
               static_cast<double>(fs::file_size(book)) / 1e6);
    return book;
}

void run_file(const fs::path& book, const std::string& file) {
    std::ifstream text(file, std::ios::binary);
    const std::string sql((std::istreambuf_iterator<char>(text)), {});
    PlainBook(book).run(sql.c_str());
}

} // namespace

Day bench_day() { return date::sys_days{date::year{2026} / 11 / 25}; }

fs::path YearsBooks::with_years(int years) const {
    return made_once(folder_ / fmt::format("years-{:02}-form-{}.mbook", years, present_form()), years,
                     [](const fs::path& book) {
                         if (!app::make_demo_book(book.string(), bench_day()))
                             throw std::runtime_error("the demo book was refused");
                     });
}

fs::path YearsBooks::of_the_form_before(int years) const {
    const int form = present_form() - 1;
    return made_once(folder_ / fmt::format("old-{:02}-form-{}.mbook", years, form), years,
                     [form](const fs::path& book) {
                         run_file(book, fmt::format(MELLOWBIN_FIXTURES "/books/v{:04}.sql", form));
                     });
}

CopyInMemory::CopyInMemory(const fs::path& book)
    : path_((fs::is_directory("/dev/shm") ? fs::path("/dev/shm") : fs::temp_directory_path()) /
            fmt::format("mellowbin-bench-{}.mbook", ::getpid())) {
    fs::copy_file(book, path_, fs::copy_options::overwrite_existing);
}

CopyInMemory::~CopyInMemory() {
    std::error_code ignored;
    for (const char* tail : {"", "-wal", "-shm"})
        fs::remove(path_.string() + tail, ignored);
}

} // namespace mellowbin::bench
