#include "app/acts/climate.h"
#include "app/acts/notice.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/settings.h"
#include "app/models/storage.h"
#include "cli/aging_as_json.h"
#include "cli/aging_as_text.h"
#include "cli/grammar.h"
#include "cli/say.h"
#include "core/door.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

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

/// What of the file does not count, one a line.
std::vector<std::string> lines_of(const LogRead& read) {
    std::vector<std::string> lines;
    for (const auto& one : read.set_aside)
        lines.push_back(fmt::format("line {}: {}: {}", one.line, one.what, one.why));
    lines.insert(lines.end(), read.notes.begin(), read.notes.end());
    return lines;
}

struct LogTyped {
    std::string place, file, accept_reason;
};

/// A person must decide before the file counts.
bool asks_why(const Refusals& refusals) {
    return std::any_of(refusals.begin(), refusals.end(),
                       [](const Refusal& refusal) { return refusal.field == accept_field; });
}

int read_climate(Session& session, const LogTyped& typed) {
    App app(session.set_up());
    app.handle(ReadClimateLog{typed.place, typed.file, typed.accept_reason});
    if (const int code = session.told_if_wrong(app); code != done) {
        if (asks_why(app.notice().refusals))
            session.world().err << "mellowbin: with --accept REASON such a file is taken in all the same\n"
                                   "mellowbin: nothing was read in\n";
        return code;
    }
    const auto number = app.notice().undoing.front().as<WithdrawClimateLog>()->log.number();
    const auto set_aside = lines_of(app.settings().log_read);
    if (session.wants_json()) {
        session.out() << act_as_json(app.notice().words, "log", number, &set_aside);
        return done;
    }
    say(session.out(), "{}\nIts number is {}; mellowbin withdraw-climate {} takes it back\n",
        app.notice().words, number, number);
    if (const auto head = set_aside_head(app.settings().log_read); !head.empty())
        say(session.world().err, "mellowbin: {}\n", head);
    for (const auto& line : set_aside)
        say(session.world().err, "mellowbin: {}\n", line);
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
    log.words.option("--accept", log.typed.accept_reason,
                     "Why the file counts although something stands against it");
    log.words.footer(
        "A file most of whose time lies over 8 K from what is said of the place, a sensor that does not\n"
        "move for two days and a step of over 10 K within an hour that stays are refused without\n"
        "--accept REASON.");
    auto withdrawal = grammar.command("withdraw-climate",
                                      "Take a data logger's file back; it stays on record", withdraw_climate);
    withdrawal.words.option("number", withdrawal.typed.number, "Its number, as mellowbin climate shows it")
        .required();
    withdrawal.words.option("--reason", withdrawal.typed.reason, "In a few words").required();
}

} // namespace mellowbin::cli
