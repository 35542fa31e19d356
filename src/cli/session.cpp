#include "cli/session.h"

#include "app/acts/notice.h"
#include "app/app.h"
#include "app/book/clock.h"
#include "app/models/lots.h"
#include "cli/progress_lines.h"
#include "cli/say.h"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <ostream>
#include <sstream>

namespace mellowbin::cli {

using namespace app;

void Session::complain(const Refusals& refusals) const {
    for (const auto& refusal : refusals)
        say(world_.err, "mellowbin: {}\n", in_words(refusal));
}

int Session::refused(const Refusals& refusals) const {
    complain(refusals);
    return not_done;
}

int Session::told(const App& app) const {
    if (const int code = told_if_wrong(app); code != done)
        return code;
    if (!app.notice().words.empty())
        say(world_.out, "{}\n", app.notice().words);
    return done;
}

int Session::told_if_wrong(const App& app) const {
    const Notice& notice = app.notice();
    if (notice.kind == Notice::Kind::refused)
        return refused(notice.refusals);
    if (notice.kind != Notice::Kind::failed)
        return done;
    say(world_.err, "mellowbin: {}\n", notice.words);
    if (!notice.meaning.empty())
        say(world_.err, "mellowbin: {}\n", notice.meaning);
    if (!notice.details.empty())
        say(world_.err, "mellowbin: {}\n", notice.details);
    return not_done;
}

Clock Session::clock() const {
    if (const auto day = day_from(general_.today))
        return Clock::standing_at(*day);
    return Clock::of_the_machine();
}

std::string Session::person() const { return general_.who.empty() ? world_.person : general_.who; }

Progress Session::progress() const { return progress_lines(world_.err); }

std::string Session::book_path() const {
    if (!general_.book.empty())
        return general_.book;
    const std::string data = world_.data_home.empty() ? world_.home + "/.local/share" : world_.data_home;
    return data + "/mellowbin/plant.mbook";
}

std::string Session::book_to_make() const {
    const auto path = book_path();
    const auto folder = std::filesystem::path(path).parent_path();
    std::error_code error;
    if (!folder.empty())
        std::filesystem::create_directories(folder, error);
    if (error)
        throw Failed{fmt::format("the folder {} cannot be made: {}", folder.string(), error.message())};
    return path;
}

std::string Session::existing_book() const {
    const auto path = book_path();
    if (path != ":memory:" && !std::filesystem::exists(path)) {
        throw Failed{fmt::format(
            "there is no book \"{}\"; make one with mellowbin plant FILE, or mellowbin demo", path)};
    }
    return path;
}

std::string bytes_of(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream bytes;
    if (file)
        bytes << file.rdbuf();
    if (!file || file.bad())
        throw Failed{fmt::format("\"{}\" cannot be read", path)};
    return bytes.str();
}

std::string piped_in(const World& world) {
    std::ostringstream bytes;
    if (world.in)
        bytes << world.in->rdbuf();
    return bytes.str();
}

std::optional<Day> day_from(const std::string& text) {
    const auto day = read_day("Day", text);
    if (!day)
        throw Failed{in_words(day.refusals().front())};
    return *day;
}

PlaceId place_of(const app::App& app, const std::string& name) {
    for (const auto& [id, known] : app.lots().places)
        if (known == name)
            return id;
    throw Failed{fmt::format("Place: \"{}\" is not known", name)};
}

LotId lot_of(const App& app, const std::string& code) {
    auto of_code = app.lots_of_code(code);
    if (const auto slash = code.rfind('/'); slash != std::string::npos)
        for (auto& lot : app.lots_of_code(code.substr(slash + 1)))
            of_code.push_back(std::move(lot));
    std::optional<LotId> found;
    for (const auto& lot : of_code) {
        if (lot.code != code && lot.mill + "/" + lot.code != code)
            continue;
        if (found)
            throw Failed{fmt::format("Lot: \"{}\" came from two mills; write it as MILL/LOT", code)};
        found = lot.id;
    }
    if (!found)
        throw Failed{fmt::format("Lot: \"{}\" is not in the book; see mellowbin lots", code)};
    return *found;
}

} // namespace mellowbin::cli
