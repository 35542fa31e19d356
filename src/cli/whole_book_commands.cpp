#include "app/book/clock.h"
#include "app/book/setup.h"
#include "app/book/whole_book.h"
#include "cli/grammar.h"
#include "cli/say.h"
#include "db/sqlite_connection.h"

#include <fmt/format.h>

#include <filesystem>
#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

struct OneFile {
    std::string file;
};

int save_book(Session& session, const OneFile& typed) {
    const std::filesystem::path file = typed.file;
    SqliteConnection book(session.existing_book(), built_in_migrations(), session.progress());
    std::error_code ignored;
    if (std::filesystem::equivalent(file, session.book_path(), ignored))
        throw Failed{fmt::format("\"{}\" is the book itself; name another file", typed.file)};
    const auto saved = save_whole_book(book, file, session.clock().now());
    if (!saved)
        return session.refused(saved.refusals());
    say(session.out(), "The whole book is saved to {}\n", typed.file);
    return done;
}

int read_book(Session& session, const OneFile& typed) {
    const auto path = session.book_to_make();
    const auto made = make_book_of(typed.file, path);
    if (!made)
        return session.refused(made.refusals());
    say(session.out(), "The book {} is made of {}\n", path, typed.file);
    return done;
}

} // namespace

void add_whole_book_commands(Grammar& grammar) {
    auto save =
        grammar.command("save-book-as-json", "Save the whole book, every table, as one JSON file", save_book);
    save.words.option("--to", save.typed.file, "The file; one of that name is written over").required();
    save.words.footer(
        "For keeping and for other programs; mellowbin copy makes a copy that can be worked with.");
    auto read = grammar.command("read-book-from-json", "Make a book of a file that save-book-as-json wrote",
                                read_book);
    read.words.option("file", read.typed.file, "The JSON file").required();
    read.words.footer("The book is the one that --book names, and must not be there yet.");
}

} // namespace mellowbin::cli
