#include "app/acts/climate.h"
#include "app/acts/notice.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/settings.h"
#include "cli/aging_as_json.h"
#include "cli/aging_as_text.h"
#include "cli/grammar.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <ostream>
#include <sstream>

namespace mellowbin::cli {
namespace {

using namespace app;

int show_climate(Session& session) {
    const App app(session.set_up());
    if (session.wants_json())
        session.out() << places_as_json(app.settings().places);
    else
        print_places(session.out(), app.settings().places);
    return done;
}

std::vector<std::string> lines_of(const std::string& words) {
    std::vector<std::string> lines;
    std::istringstream stream(words);
    for (std::string line; std::getline(stream, line);)
        lines.push_back(line);
    return lines;
}

struct LogTyped {
    std::string place, file;
};

int read_climate(Session& session, const LogTyped& typed) {
    App app(session.set_up());
    app.handle(ReadClimateLog{typed.place, typed.file});
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    const auto number = app.notice().undoing.front().as<WithdrawClimateLog>()->log.number();
    const auto set_aside = lines_of(app.settings().set_aside_words);
    if (session.wants_json()) {
        session.out() << act_as_json(app.notice().words, "log", number, &set_aside);
        return done;
    }
    fmt::print(session.out(), "{}\nIts number is {}; mellowbin withdraw-climate {} takes it back\n",
               app.notice().words, number, number);
    for (const auto& line : set_aside)
        fmt::print(session.world().err, "mellowbin: {}\n", line);
    return done;
}

struct WithdrawalTyped {
    std::int64_t number = 0;
    std::string reason;
};

int withdraw_climate(Session& session, const WithdrawalTyped& typed) {
    App app(session.set_up());
    app.handle(WithdrawClimateLog{ClimateLogId{typed.number}, typed.reason});
    if (const int code = session.told_if_wrong(app); code != done || !session.wants_json())
        return session.told(app);
    session.out() << act_as_json(app.notice().words, "log", typed.number);
    return done;
}

} // namespace

void add_climate_commands(Grammar& grammar) {
    grammar.command("climate", "Show the places: what is assumed and measured of their climate",
                    show_climate);
    auto log = grammar.command("read-climate", "Read a data logger's file (CSV) for a place", read_climate);
    log.words.option("place", log.typed.place, "Its name").required();
    log.words.option("file", log.typed.file, "Time, temperature in °C or °F, relative humidity in %")
        .required();
    auto withdrawal = grammar.command("withdraw-climate",
                                      "Take a data logger's file back; it stays on record", withdraw_climate);
    withdrawal.words.option("number", withdrawal.typed.number, "Its number, as mellowbin climate shows it")
        .required();
    withdrawal.words.option("--reason", withdrawal.typed.reason, "In a few words").required();
}

} // namespace mellowbin::cli
