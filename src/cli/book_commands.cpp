#include "app/acts/plant_described.h"
#include "app/acts/plant_set_up.h"
#include "app/app.h"
#include "app/book/beliefs.h"
#include "app/book/book.h"
#include "app/book/setup.h"
#include "app/book/taught_check.h"
#include "app/demo/book.h"
#include "app/models/settings.h"
#include "cli/as_json.h"
#include "cli/as_text.h"
#include "cli/grammar.h"
#include "cli/say.h"
#include "db/sqlite_connection.h"
#include "exchange/plant_file.h"

#include <fmt/format.h>

#include <fstream>
#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

int make_demo(Session& session) {
    const auto made = make_demo_book(session.book_to_make(), session.clock().today());
    if (!made)
        return session.refused(made.refusals());
    say(session.out(), "Demo book made: {}\n", *made);
    return done;
}

struct OneFile {
    std::string file;
};

struct PlantTyped {
    std::string file; ///< put into the book; empty: the book's plant is written
    std::string out;
};

/// The plant file, or standard output.
int write_plant(Session& session, const std::string& to) {
    SqliteConnection connection(session.existing_book(), built_in_migrations(), session.progress());
    const auto plant = described(Book::read(connection, session.clock().today()));
    const auto words = exchange::write_plant_file(plant);
    if (to.empty() || to == "-") {
        session.out() << words;
        return done;
    }
    std::ofstream file(to, std::ios::binary);
    file << words;
    file.close();
    if (!file)
        throw Failed{fmt::format("\"{}\" cannot be written", to)};
    say(session.out(), "The plant is written to {}\n", to);
    return done;
}

int put_plant(Session& session, const PlantTyped& typed) {
    if (typed.file.empty())
        return write_plant(session, typed.out);
    const auto plant = exchange::read_plant_file(bytes_of(typed.file));
    if (!plant)
        return session.refused(plant.refusals());
    const auto path = session.book_to_make();
    App app({path, session.person(), session.clock(), session.progress()});
    app.handle(SetUpPlant{*plant});
    if (const int code = session.told(app); code != done)
        return code;
    say(session.out(), "{} is set up in {}\n", plant->plant, path);
    return done;
}

int copy_book(Session& session, const OneFile& typed) {
    SqliteConnection connection(session.existing_book(), built_in_migrations(), session.progress());
    const auto saved = connection.save_copy(typed.file);
    if (!saved)
        return session.refused(saved.refusals());
    say(session.out(), "Book copied to {}\n", typed.file);
    return done;
}

int check_book(Session& session) {
    SqliteConnection connection(session.existing_book(), built_in_migrations(), session.progress());
    auto faults = connection.faults();
    if (faults.empty()) // of a damaged book nothing more can be said
        faults = faults_of_what_is_taught(connection);
    for (const auto& fault : faults)
        say(session.world().err, "mellowbin: {}\n", fault);
    if (faults.empty())
        session.out() << "The book is sound.\n";
    return faults.empty() ? done : not_done;
}

int make_doughs_anew(Session& session) {
    SqliteConnection connection(session.existing_book(), built_in_migrations(), session.progress());
    Doughs().make_anew(connection, Book::read(connection, session.clock().today()),
                       part_of(session.progress(), "taking in what the doughs taught", 0, 1));
    session.out() << "What the doughs taught was made anew from every batch.\n";
    return done;
}

struct JournalTyped {
    int newest = 50;
};

int show_journal(Session& session, const JournalTyped& typed) {
    const App app(session.set_up());
    const auto rows = app.journal(typed.newest);
    if (session.wants_json())
        session.out() << journal_as_json(rows);
    else
        print_journal(session.out(), rows);
    return done;
}

} // namespace

void add_book_commands(Grammar& grammar) {
    grammar.command("demo", "Make a book of an invented bakery", make_demo);
    auto plant =
        grammar.command("plant",
                        "Put a plant file (mills, flours, places, lines, products, choices) into the "
                        "book; without one, write the book's plant as such a file",
                        put_plant);
    const auto out = plant.words.option("--out", plant.typed.out,
                                        "Where the book's plant is written; - or nothing: standard output");
    plant.words.option("file", plant.typed.file, "The plant file (JSON) to put in").excludes(out);
    auto copy = grammar.command("copy", "Copy the book while it is in use", copy_book);
    copy.words.option("to", copy.typed.file, "The copy's file").required();
    grammar.command("check", "Read the whole book and say what is wrong with it", check_book);
    grammar.command("doughs-anew", "Make anew what the doughs taught, from every batch", make_doughs_anew);
    auto journal = grammar.command("journal", "Show what was done, newest first", show_journal);
    journal.words.option("--newest", journal.typed.newest, "How many lines").within(1, 10'000);
}

} // namespace mellowbin::cli
