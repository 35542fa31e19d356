#include "app/demo/first_start.h"

#include "app/acts/looking.h"
#include "app/app.h"
#include "app/book/clock.h"
#include "app/demo/book.h"
#include "app/models/setting_up.h"
#include "db/connection.h"

#include <fmt/format.h>

#include <exception>
#include <system_error>
#include <unistd.h>
#include <vector>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;

bool is_there(const fs::path& path) {
    std::error_code error;
    return fs::exists(path, error);
}

/// A book's file, and what its engine keeps beside it while it is open.
void remove_book(const fs::path& book) {
    std::error_code ignored;
    for (const char* more : {"", "-wal", "-shm", "-journal"})
        fs::remove(book.string() + more, ignored);
}

/// Of a book that could not be made: where anything was written to it, it may be another station's by now.
void remove_if_empty(const fs::path& book) {
    std::error_code error;
    if (fs::file_size(book, error) == 0 && !error)
        remove_book(book);
}

/// Makes the folders that are not there. Nothing, or why not.
std::string make_folders(const fs::path& folder, std::vector<fs::path>& made) {
    std::vector<fs::path> missing;
    for (auto at = folder; !at.empty() && !is_there(at); at = at.parent_path())
        missing.push_back(at);
    for (auto at = missing.rbegin(); at != missing.rend(); ++at) {
        std::error_code error;
        if (fs::create_directory(*at, error))
            made.push_back(*at);
        if (error)
            return fmt::format("The folder {} cannot be made: {}. Nothing was changed.", at->string(),
                               error.message());
    }
    return {};
}

/// Only those that are empty still.
void remove_folders(const std::vector<fs::path>& made) {
    std::error_code ignored;
    for (auto at = made.rbegin(); at != made.rend(); ++at)
        fs::remove(*at, ignored);
}

/// Gives the file its name, and takes it from no other file that meanwhile has it.
bool name_file(const fs::path& file, const fs::path& name) {
    std::error_code error;
    fs::create_hard_link(file, name, error);
    if (!error)
        return fs::remove(file, error);
    if (is_there(name))
        return false;
    fs::rename(file, name, error); // a disk without links
    return !error;
}

std::string name_of_file(const std::string& path) { return fs::path(path).filename().string(); }

} // namespace

fs::path demo_beside(const fs::path& book) {
    const auto demo = book.parent_path() / "demo.mbook";
    return demo == book ? book.parent_path() / "demo-bakery.mbook" : demo;
}

FirstStart::FirstStart(AppSetup setup) : setup_(std::move(setup)) {
    welcome_.book = setup_.book;
    welcome_.demo = demo_beside(setup_.book).string();
    look();
    if (setup_.open || setup_.book == ":memory:" || welcome_.has_book)
        app_ = opened(setup_.book);
}

FirstStart::~FirstStart() = default;

bool FirstStart::welcomes() const { return !app_ || (!has_chosen_ && app_->setting_up().is_untouched); }

void FirstStart::look() {
    welcome_.has_book = is_there(welcome_.book);
    welcome_.has_demo = is_there(welcome_.demo);
}

/// Null, and the reason as trouble, where the world does not let it.
std::unique_ptr<App> FirstStart::opened(const std::string& book) {
    welcome_.trouble.clear();
    auto setup = setup_;
    setup.book = book;
    try {
        return std::make_unique<App>(std::move(setup));
    } catch (const BookError& error) {
        welcome_.trouble = error.what();
    } catch (const fs::filesystem_error& error) {
        welcome_.trouble = error.what();
    }
    return nullptr;
}

void FirstStart::set_up() {
    if (!app_) {
        look();
        const bool was_there = welcome_.has_book;
        std::vector<fs::path> folders;
        welcome_.trouble = make_folders(fs::path(setup_.book).parent_path(), folders);
        if (welcome_.trouble.empty())
            app_ = opened(setup_.book);
        if (!app_ && !was_there) {
            remove_if_empty(setup_.book);
            remove_folders(folders);
        }
        look();
    }
    has_chosen_ = app_ != nullptr;
}

/// Under another name, so that half a book is never taken for one.
void FirstStart::make_demo(const Progress& progress) {
    const auto making = fmt::format("{}.making-{}", welcome_.demo, ::getpid());
    std::vector<fs::path> folders;
    welcome_.trouble = make_folders(fs::path(welcome_.demo).parent_path(), folders);
    if (welcome_.trouble.empty()) {
        try {
            const auto made = make_demo_book(making, setup_.clock.today(), progress);
            if (!made)
                welcome_.trouble = in_words(made.refusals().front());
            else if (!name_file(making, welcome_.demo) && !is_there(welcome_.demo))
                welcome_.trouble = fmt::format(
                    "The demo's book cannot be written to {}. Nothing was changed.", welcome_.demo);
        } catch (const std::exception& error) {
            welcome_.trouble = fmt::format("The demo's book was not made: {}", error.what());
        }
    }
    remove_book(making);
    if (!welcome_.trouble.empty())
        remove_folders(folders);
}

void FirstStart::look_at_demo(const Progress& progress) {
    look();
    welcome_.trouble.clear();
    if (!welcome_.has_demo)
        make_demo(progress);
    look();
    if (!welcome_.trouble.empty())
        return;
    auto demo = opened(welcome_.demo);
    if (!demo)
        return;
    app_ = std::move(demo);
    has_chosen_ = true;
    app_->handle(
        TellOfBook{fmt::format("The demo is open, in {}. Your own book is {}: close the window and open "
                               "mellowbin again to come back to it",
                               name_of_file(welcome_.demo), name_of_file(welcome_.book))});
}

} // namespace mellowbin::app
