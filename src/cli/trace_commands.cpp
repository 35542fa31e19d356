#include "app/acts/notice.h"
#include "app/acts/trace.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/trace_page.h"
#include "cli/aging_as_json.h"
#include "cli/grammar.h"
#include "cli/say.h"
#include "cli/trace_words.h"

#include <fmt/format.h>

#include <filesystem>
#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

struct TracedWords {
    std::string of, day;
    std::string hold; ///< the reason; empty: nothing is held
};

int told_of_trace(const Session& session, const App& app) {
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    const auto& page = app.trace();
    if (session.wants_json())
        session.out() << trace_as_json(*page.trace);
    else
        print_trace(session.out(), *page.trace, page.summary);
    return done;
}

template <TraceOf asks> int trace(Session& session, const TracedWords& typed) {
    App app(session.set_up());
    app.handle(ShowTrace{{asks, typed.of, typed.day}});
    if (const int code = told_of_trace(session, app); code != done || typed.hold.empty())
        return code;
    app.handle(HoldConcerned{typed.hold});
    return session.told(app);
}

template <TraceOf asks>
void add_trace(Grammar& grammar, const char* name, const char* what, const char* of, const char* of_what,
               const char* day_what) {
    auto [words, typed] = grammar.command(name, what, trace<asks>);
    words.option(of, typed.of, of_what).required();
    if (day_what)
        words.option("--day", typed.day, day_what);
    words.option(
        "--hold", typed.hold,
        "Put everything of it that has stock on hold, with this reason; what no hold reaches is named");
}

int log_dispatch(Session& session, const DispatchDraft& typed) {
    App app(session.set_up());
    app.handle(LogDispatch{typed});
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    const auto number = app.notice().undoing.front().as<CounterDispatch>()->dispatch.number();
    if (session.wants_json()) {
        session.out() << act_as_json(app.notice().words, "dispatch", number);
        return done;
    }
    const int code = session.told(app);
    say(session.out(), "Its number is {}; mellowbin take-back-dispatch {} takes it back\n", number, number);
    return code;
}

struct FileTyped {
    std::string file;
};

int read_dispatches(Session& session, const FileTyped& typed) {
    const auto bytes = bytes_of(typed.file);
    App app(session.set_up());
    app.handle(ReadDispatches{std::filesystem::path(typed.file).filename().string(), bytes});
    return session.told(app);
}

struct ListTyped {
    std::string from, to, product, customer;
};

int list_dispatches(Session& session, const ListTyped& typed) {
    const App app(session.set_up());
    const Day to = day_from(typed.to).value_or(app.clock().today());
    const Day from = day_from(typed.from).value_or(to - Days{14});
    const auto rows = app.dispatches(from, to, typed.product, typed.customer);
    if (session.wants_json())
        session.out() << dispatches_as_json(rows);
    else
        print_dispatches(session.out(), rows);
    return done;
}

struct TakenBack {
    std::int64_t number = 0;
    std::string reason;
};

int take_back_dispatch(Session& session, const TakenBack& typed) {
    App app(session.set_up());
    app.handle(CounterDispatch{DispatchId{typed.number}, typed.reason});
    return session.told(app);
}

int take_back_rework(Session& session, const TakenBack& typed) {
    App app(session.set_up());
    app.handle(CounterRework{ReworkId{typed.number}, typed.reason});
    return session.told(app);
}

int log_rework(Session& session, const ReworkDraft& typed) {
    App app(session.set_up());
    app.handle(LogRework{typed});
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    const auto number = app.notice().undoing.front().as<CounterRework>()->rework.number();
    if (session.wants_json()) {
        session.out() << act_as_json(app.notice().words, "rework", number);
        return done;
    }
    const int code = session.told(app);
    say(session.out(), "Its number is {}; mellowbin take-back-rework {} takes it back\n", number, number);
    return code;
}

struct DrillTyped {
    std::string lot, product, day, note;
    std::int64_t end = 0, show = 0;
};

int show_drill(const Session& session, const App& app, DrillId id) {
    const auto drill = app.drill(id);
    if (!drill)
        throw Failed{fmt::format("Drill: {} is not in the book; see mellowbin trace-drill", id.number())};
    if (session.wants_json())
        session.out() << drill_as_json(*drill);
    else
        print_drill(session.out(), *drill);
    return done;
}

int drill(Session& session, const DrillTyped& typed) {
    App app(session.set_up());
    if (typed.show != 0)
        return show_drill(session, app, DrillId{typed.show});
    if (typed.end != 0) {
        app.handle(EndDrill{DrillId{typed.end}, typed.note});
        const int code = session.told_if_wrong(app);
        return code == done ? show_drill(session, app, DrillId{typed.end}) : code;
    }
    if (typed.lot.empty() && typed.product.empty()) {
        app.handle(ShowTrace{});
        if (session.wants_json())
            session.out() << drills_as_json(app.trace().drills);
        else
            print_drills(session.out(), app.trace().drills);
        return done;
    }
    app.handle(BeginDrill{typed.lot.empty() ? TraceTyped{TraceOf::product, typed.product, typed.day}
                                            : TraceTyped{TraceOf::lot, typed.lot, ""}});
    const int code = session.told_if_wrong(app);
    return code == done ? show_drill(session, app, app.trace().running) : code;
}

void add_dispatch_commands(Grammar& grammar) {
    auto log = grammar.command("dispatch", "Log bread of a run that left, and to whom", log_dispatch);
    log.words.option("customer", log.typed.customer, "The customer's code").required();
    log.words.option("--run", log.typed.run, "Of which run; otherwise the only one of the product that day");
    log.words.option("--product", log.typed.product, "Its name");
    log.words.option("--pieces", log.typed.pieces);
    log.words.option("--kg", log.typed.kg, "Of bread");
    log.words.option("--piece-g", log.typed.piece_g, "What a piece weighs");
    log.words.option("--day", log.typed.day, "When it left; otherwise today");
    log.words.option("--note", log.typed.note);
    log.words.option("--reason", log.typed.reason, "Why it stands though it is more than the run's yield");
    auto read =
        grammar.command("read-dispatches", "Log the dispatches of a CSV file, all or none", read_dispatches);
    read.words
        .option("file", read.typed.file,
                "Heads: customer, run or product, pieces or kg; also piece g, day, note, reason")
        .required();
    auto list = grammar.command("dispatches", "List dispatches", list_dispatches);
    list.words.option("--from", list.typed.from, "First day; otherwise a fortnight before the last");
    list.words.option("--to", list.typed.to, "Last day; otherwise today");
    list.words.option("--product", list.typed.product, "Its name");
    list.words.option("--customer", list.typed.customer, "Its code");
    auto back = grammar.command("take-back-dispatch", "It did not leave, or not so; it stays on record",
                                take_back_dispatch);
    back.words.option("number", back.typed.number, "As mellowbin dispatches shows it").required();
    back.words.option("--reason", back.typed.reason, "In a few words").required();
}

void add_rework_commands(Grammar& grammar) {
    auto log = grammar.command("rework", "Log what of a batch was put back into a later one", log_rework);
    log.words.option("from-run", log.typed.from_run, "Code of the run of the earlier batch").required();
    log.words.option("from-batch", log.typed.from_batch, "Its number in the run").required();
    log.words.option("into-run", log.typed.into_run, "Code of the run of the later batch").required();
    log.words.option("into-batch", log.typed.into_batch, "Its number in the run").required();
    log.words.option("--kg", log.typed.kg, "How much was put back").required();
    log.words.option("--kind", log.typed.kind, "dough or flour; otherwise dough");
    log.words.option("--note", log.typed.note);
    auto back =
        grammar.command("take-back-rework", "It was not put back; it stays on record", take_back_rework);
    back.words.option("number", back.typed.number, "As mellowbin rework told it").required();
    back.words.option("--reason", back.typed.reason, "In a few words").required();
}

} // namespace

void add_trace_commands(Grammar& grammar) {
    add_trace<TraceOf::lot>(grammar, "trace-lot", "Every batch, product and customer a lot went to", "lot",
                            "Its number, or MILL/LOT", nullptr);
    add_trace<TraceOf::product>(grammar, "trace-product", "The lots, mills and notes behind a day's product",
                                "product", "Its name", "On which it was baked; otherwise today");
    add_trace<TraceOf::run>(grammar, "trace-run", "The same of one run", "run", "Its code", nullptr);
    add_trace<TraceOf::customer>(grammar, "trace-customer", "The same of what went to a customer", "customer",
                                 "Its code", "On which it left; otherwise today");
    add_dispatch_commands(grammar);
    add_rework_commands(grammar);
    auto drills = grammar.command("trace-drill", "Time a trace: begin, end, show or list drills", drill);
    drills.words.option("--lot", drills.typed.lot, "Begin with this lot");
    drills.words.option("--product", drills.typed.product, "Begin with this product");
    drills.words.option("--day", drills.typed.day, "Of the product; otherwise today");
    drills.words.option("--end", drills.typed.end, "End the drill of this number; its report is kept");
    drills.words.option("--note", drills.typed.note, "What is to be remembered of it");
    drills.words.option("--show", drills.typed.show, "Show the drill of this number");
}

} // namespace mellowbin::cli
