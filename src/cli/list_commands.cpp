#include "app/acts/notice.h"
#include "app/acts/save_calendar.h"
#include "app/acts/save_listing.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/listings.h"
#include "cli/grammar.h"

#include <fmt/format.h>

namespace mellowbin::cli {
namespace {

using namespace app;

struct SaveListTyped {
    std::string name, to, from, to_day, mill, words, at;
};

int save_list(Session& session, const SaveListTyped& typed) {
    App app(session.set_up());
    app.handle(
        SaveListing{typed.name, typed.to, typed.from, typed.to_day, typed.mill, typed.words, typed.at});
    return session.told(app);
}

struct FileTyped {
    std::string to;
};

int save_calendar(Session& session, const FileTyped& typed) {
    App app(session.set_up());
    app.handle(SaveCalendar{typed.to});
    return session.told(app);
}

struct EventsTyped {
    std::string to, from, to_day;
};

int save_events(Session& session, const EventsTyped& typed) {
    App app(session.set_up());
    app.handle(SaveSupplyEvents{typed.to, typed.from, typed.to_day});
    return session.told(app);
}

/// A line a list, for the help.
const char* listings_in_words() {
    static const std::string words = [] {
        std::string all = "The lists:\n";
        for (const auto& kind : all_listings())
            all += fmt::format("  {:<12} {}\n", kind.name, kind.what);
        return all + "A file of that name is written over. Days are both included.";
    }();
    return words.c_str();
}

} // namespace

void add_list_commands(Grammar& grammar) {
    auto [words, typed] = grammar.command("save-list", "Save a list as CSV or as a spreadsheet", save_list);
    words.option("name", typed.name, "Which list").required();
    words.option("--to", typed.to, "The file; .csv or .xlsx says as what").required();
    words.option("--from", typed.from, "The first day, of a list of a span");
    words.option("--to-day", typed.to_day, "The last day");
    words.option("--mill", typed.mill, "Of a mill's record, and of deliveries where one mill's are wanted");
    words.option("--words", typed.words, "Of past lots: in the lot's number or its mill's name");
    words.option("--at", typed.at, "Of stock: a day, or a day and time, that has been; otherwise now");
    words.footer(listings_in_words());
    auto calendar = grammar.command(
        "calendar", "Save ready days, last days, runs and days to order by as a calendar", save_calendar);
    calendar.words.option("--to", calendar.typed.to, "The file (.ics)").required();
    calendar.words.footer(
        "A calendar of that name is brought up to date: what did not change stays as it is, what is\n"
        "gone is cancelled. The setting \"Calendar file\" keeps one up to date after every act.");
    auto events = grammar.command(
        "events", "Save what became of flour for other companies' programs (EPCIS 2.0)", save_events);
    events.words.option("--to", events.typed.to, "The file (.jsonld)").required();
    events.words.option("--from", events.typed.from, "The first day; otherwise four weeks back");
    events.words.option("--to-day", events.typed.to_day, "The last day; otherwise today");
    events.words.footer(
        "Received, moved and made into dough, and what of it was taken back. A file of that name is\n"
        "written over.");
}

} // namespace mellowbin::cli
