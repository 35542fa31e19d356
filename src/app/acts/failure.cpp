#include "app/acts/failure.h"

#include "app/acts/state.h"
#include "db/book_error.h"
#include "db/last_change.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

Notice failed(std::string words, std::string details) {
    Notice notice;
    notice.kind = Notice::Kind::failed;
    notice.words = std::move(words);
    notice.details = std::move(details);
    return notice;
}

std::string details_of(const std::exception& error) {
    const auto* of_book = dynamic_cast<const BookError*>(&error);
    return of_book && !of_book->detail().empty() ? fmt::format("{} ({})", error.what(), of_book->detail())
                                                 : error.what();
}

/// A connection that lived through the failure may remember what never reached the disk: the book is looked
/// into through a new one, which stays if it serves.
Fate looked_at_again(State& state, const LastChange& change) {
    try {
        if (state.setup.book == ":memory:") // gone when it is closed
            return look_again(*state.connection, change);
        auto fresh = open_book(state.setup);
        const Fate fate = look_again(*fresh, change);
        state.connection = std::move(fresh);
        return fate;
    } catch (const std::exception&) { // told as not known; the first failure has the details
        return Fate::not_known;
    }
}

bool goes_well(const std::function<void()>& read_anew) {
    try {
        read_anew();
        return true;
    } catch (const std::exception&) { // told as not shown; the first failure has the details
        return false;
    }
}

/// Adds what the screens show now of an act that is in the book.
void show_it(Notice& notice, const std::function<void()>& read_anew) {
    if (goes_well(read_anew)) {
        notice.meaning += " The program has read the book again, and the screens show what is in it.";
        notice.remedy = "Do not enter it again.";
    } else {
        notice.meaning += " The program could not read the book again: what the screens show is from before, "
                          "or part of it.";
        notice.remedy = "Do not enter it again. Close the program, see to the disk and open the book again.";
    }
}

Notice in_doubt(State& state, const std::exception& error, const LastChange& change,
                const std::function<void()>& read_anew) {
    auto notice = failed("The disk failed while this was being saved", details_of(error));
    switch (looked_at_again(state, change)) {
    case Fate::in_the_book:
        notice.meaning = fmt::format("The book was looked into again: \"{}\" is in the book.", change.words);
        show_it(notice, read_anew);
        break;
    case Fate::not_in_the_book:
        notice.meaning = fmt::format("The book was looked into again: \"{}\" is not in the book. What was "
                                     "typed is still on the screen.",
                                     change.words);
        notice.remedy = "See to the disk, then do it again.";
        break;
    case Fate::not_known:
        notice.meaning = fmt::format("It is not known whether \"{}\" is in the book: looking into it again "
                                     "failed, too. What was typed is still on the screen.",
                                     change.words);
        notice.remedy = "See to the disk, open the book again and look before you enter it again.";
        break;
    }
    return notice;
}

} // namespace

Notice failure(State& state, const std::exception& error, const std::function<void()>& read_anew) {
    const LastChange change = state.connection->last_change();
    if (change.fate == Fate::not_known)
        return in_doubt(state, error, change, read_anew);
    if (change.fate == Fate::not_in_the_book)
        return failure_outside_the_book(error);
    auto notice = failed("This is in the book, but it could not be shown", details_of(error));
    notice.meaning = fmt::format("\"{}\" is in the book.", change.words);
    show_it(notice, read_anew);
    return notice;
}

Notice failure_outside_the_book(const std::exception& error) {
    const auto* of_book = dynamic_cast<const BookError*>(&error);
    auto notice = of_book ? failed(error.what(), of_book->detail())
                          : failed("The program could not do this", error.what());
    notice.meaning = "What was typed is still on the screen; nothing of it is in the book.";
    notice.remedy = "Mend the cause, then do it again.";
    return notice;
}

} // namespace mellowbin::app
