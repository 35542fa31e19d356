#pragma once

#include "app/app.h"
#include "app/book/clock.h"
#include "app/book/setup.h"
#include "cli/command_line.h"
#include "core/result.h"
#include "db/progress.h"

#include <optional>
#include <string>

namespace mellowbin::cli {

/// What every command may be told.
struct General {
    std::string book, today, who;
    bool json = false;
};

/// What stops a command, already in words for stderr.
struct Failed {
    std::string words;
};

/// One command at a terminal: whose it is, on which book, and how it answers.
class Session {
public:
    Session(const General& general, World& world) : general_(general), world_(world) {}

    [[nodiscard]] World& world() const { return world_; }
    [[nodiscard]] std::ostream& out() const { return world_.out; }
    [[nodiscard]] bool wants_json() const { return general_.json; }

    void complain(const Refusals& refusals) const;
    /// Complains; the exit code.
    int refused(const Refusals& refusals) const;
    /// What the app said of the last intent, on the stream where it belongs; the exit code.
    int told(const app::App& app) const;
    /// Only what went wrong, or nothing: for acts whose answer is shown in another way.
    int told_if_wrong(const app::App& app) const;

    [[nodiscard]] app::Clock clock() const;
    [[nodiscard]] std::string person() const;
    /// The book's file, in its folder or not yet there.
    [[nodiscard]] std::string book_path() const;
    /// A book that is to be made: its folder is made.
    [[nodiscard]] std::string book_to_make() const;
    /// A reading command makes no book where there is none: a mistyped name would look like an empty plant.
    [[nodiscard]] std::string existing_book() const;
    /// For a window, which says itself that there is no book yet.
    [[nodiscard]] app::AppSetup set_up_to_begin() const {
        return {book_path(), person(), clock(), progress()};
    }
    /// For an App on the existing book.
    [[nodiscard]] app::AppSetup set_up() const { return {existing_book(), person(), clock(), progress()}; }
    /// Says on stderr how far an older book is brought to its present form.
    [[nodiscard]] Progress progress() const;

private:
    const General& general_;
    World& world_;
};

/// The whole file. Throws Failed.
std::string bytes_of(const std::string& path);
/// All that is piped in.
std::string piped_in(const World& world);
/// Nothing for an empty text. Throws Failed for anything that is no day.
std::optional<Day> day_from(const std::string& text);
/// The place of this name. Throws Failed where there is none.
PlaceId place_of(const app::App& app, const std::string& name);
/// The lot of this number, or MILL/LOT. Throws Failed where there is none, or two.
LotId lot_of(const app::App& app, const std::string& code);

} // namespace mellowbin::cli
