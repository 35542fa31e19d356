#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/print_papers.h"
#include "app/acts/print_plan.h"
#include "app/acts/trace.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/overview.h"
#include "cli/grammar.h"

#include <fmt/format.h>

#include <array>
#include <charconv>

namespace mellowbin::cli {
namespace {

using namespace app;

struct PrintTyped {
    std::string what, which, sscc, from;
    int days = 1;
    FlourSaid said;
    PaperTo to;
};

void print_pallet_labels(App& app, const PrintTyped& typed) {
    app.handle(PrintPalletLabels{lot_of(app, typed.which), typed.sscc, typed.said, typed.to});
}

void print_bag_label(App& app, const PrintTyped& typed) {
    app.handle(PrintBagLabel{lot_of(app, typed.which), typed.said, typed.to});
}

void print_test_bakes(App& app, const PrintTyped& typed) {
    app.handle(PrintTestBakes{lot_of(app, typed.which), typed.to});
}

void print_card_of(App& app, const PrintTyped& typed) {
    const auto run = app.run_of_code(typed.which);
    if (!run)
        throw Failed{fmt::format("Run: \"{}\" is not in the book; see mellowbin plan", typed.which)};
    app.handle(PrintCard{*run, typed.to});
}

std::int64_t number_of(const PrintTyped& typed, std::string_view what, std::string_view list) {
    std::int64_t number = 0;
    const char* end = typed.which.data() + typed.which.size();
    const auto [read_to, fault] = std::from_chars(typed.which.data(), end, number);
    if (fault != std::errc() || read_to != end)
        throw Failed{fmt::format("{}: \"{}\" is no number; see mellowbin {}", what, typed.which, list)};
    return number;
}

void print_delivery_of(App& app, const PrintTyped& typed) {
    app.handle(PrintDelivery{DeliveryId{number_of(typed, "Delivery", "deliveries")}, typed.to});
}

void print_trace_of(App& app, const PrintTyped& typed) {
    app.handle(ShowTrace{{TraceOf::lot, typed.which, ""}});
    if (app.notice().kind != Notice::Kind::refused)
        app.handle(PrintTrace{typed.to});
}

void print_drill_of(App& app, const PrintTyped& typed) {
    app.handle(PrintDrill{DrillId{number_of(typed, "Drill", "trace-drill")}, typed.to});
}

void print_stock(App& app, const PrintTyped& typed) { app.handle(PrintStockToCount{typed.to}); }

void print_the_plan(App& app, const PrintTyped& typed) {
    app.handle(ShowPlan{day_from(typed.from).value_or(app.overview().today), typed.days});
    app.handle(PrintPlan{typed.to.file, typed.to});
}

struct Paper {
    std::string_view what;
    std::string_view of; ///< what `which` is; empty: nothing
    void (*print)(App& app, const PrintTyped& typed);
};
constexpr std::array papers{Paper{"pallet-label", "a lot", print_pallet_labels},
                            Paper{"bag-label", "a lot", print_bag_label},
                            Paper{"card", "a run", print_card_of},
                            Paper{"plan", "", print_the_plan},
                            Paper{"stock", "", print_stock},
                            Paper{"delivery", "a delivery's number", print_delivery_of},
                            Paper{"test-bakes", "a lot", print_test_bakes},
                            Paper{"trace", "a lot", print_trace_of},
                            Paper{"drill", "a drill's number", print_drill_of}};

const Paper& paper_of(const std::string& what) {
    std::string names;
    for (const auto& paper : papers) {
        if (paper.what == what)
            return paper;
        names += fmt::format("{}{}", names.empty() ? "" : ", ", paper.what);
    }
    throw Failed{fmt::format("Paper: \"{}\" is none. Choose one of: {}", what, names)};
}

int print_paper(Session& session, const PrintTyped& typed) {
    const auto& paper = paper_of(typed.what);
    if (paper.of.empty() != typed.which.empty())
        throw Failed{paper.of.empty()
                         ? fmt::format("{} is of the whole plant: leave \"{}\" out", paper.what, typed.which)
                         : fmt::format("{}: of which? Name {}", paper.what, paper.of)};
    App app(session.set_up());
    paper.print(app, typed);
    return session.told(app);
}

} // namespace

void add_print_commands(Grammar& grammar) {
    auto [words, typed] =
        grammar.command("print", "A paper as PDF, into a file or to a printer", print_paper);
    words
        .option("what", typed.what,
                "pallet-label, bag-label, card, plan, stock (to be counted), delivery, test-bakes, trace or "
                "drill")
        .required();
    words.option("which", typed.which,
                 "The lot, the run, the delivery's or drill's number; of plan and stock nothing");
    words.option("--to", typed.to.file, "The file: a PDF");
    words.option("--printer", typed.to.printer, "A queue of the system's, as lpstat -p names it");
    words.option("--paper", typed.to.paper,
                 "a4, letter, or a label's size in mm: 105x148; otherwise what is usual for it");
    words.option("--sscc", typed.sscc, "Only the label of this pallet of the lot");
    words.option("--gtin", typed.said.gtin, "Of the flour as its mill sells it, for labels");
    words.option("--bags", typed.said.bags, "On each pallet; the GTIN is the bag's then");
    words.option("--kg", typed.said.kg, "On the pallet, in the bag; otherwise as the book has it");
    words.option("--from", typed.from, "The plan's first day; otherwise today");
    words.option("--days", typed.days, "How many days of the plan").within(1, 56);
    words.needs([&read = typed.to] { return !read.file.empty() || !read.printer.empty(); },
                "--to or --printer");
}

} // namespace mellowbin::cli
