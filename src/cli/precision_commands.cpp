#include "app/acts/notice.h"
#include "app/acts/test_precision.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/settings.h"
#include "cli/as_json.h"
#include "cli/as_text.h"
#include "cli/grammar.h"

#include <cstdint>
#include <ostream>

/// How far two laboratories' results may lie apart.
namespace mellowbin::cli {
namespace {

using namespace app;

int show(Session& session) {
    const App app(session.set_up());
    if (session.wants_json())
        session.out() << test_precision_as_json(app.settings().precision);
    else
        print_test_precision(session.out(), app.settings().precision);
    return done;
}

struct RowTyped {
    std::int64_t row = 0;
    TestPrecisionDraft as;
};

/// Of a row that is there, what is not typed stays.
int set(Session& session, const RowTyped& typed) {
    App app(session.set_up());
    SetTestPrecision intent{typed.row, typed.as};
    for (const auto& line : app.settings().precision) {
        if (typed.row == 0 || line.row != typed.row)
            continue;
        const auto keep = [](std::string& field, const std::string& before) {
            if (field.empty())
                field = before;
            else if (field == "none")
                field.clear();
        };
        keep(intent.as.property, line.draft.property);
        keep(intent.as.method, line.draft.method);
        keep(intent.as.r, line.draft.r);
        keep(intent.as.R, line.draft.R);
        keep(intent.as.given, line.draft.given);
        keep(intent.as.low, line.draft.low);
        keep(intent.as.high, line.draft.high);
        keep(intent.as.mill_replicates, line.draft.mill_replicates);
        keep(intent.as.own_replicates, line.draft.own_replicates);
        keep(intent.as.source, line.draft.source);
    }
    app.handle(intent);
    return session.told(app);
}

int drop(Session& session, const RowTyped& typed) {
    App app(session.set_up());
    app.handle(DropTestPrecision{typed.row});
    return session.told(app);
}

} // namespace

void add_precision_commands(Grammar& grammar) {
    grammar.command("test-precision", "Show how far two laboratories' results may lie apart by chance", show);
    auto row =
        grammar.command("set-test-precision",
                        "Enter such limits from a standard of yours; they go before the published ones", set);
    auto& as = row.typed.as;
    row.words.option("--row", row.typed.row,
                     "One of your own, by its number in the list; otherwise one more");
    row.words.option("--property", as.property, "Such as protein");
    row.words.option("--method", as.method,
                     "Names of one method, parted by |; otherwise whatever the method");
    row.words.option("--reproducibility", as.R, "R, between two laboratories");
    row.words.option("--repeatability", as.r, "r, within one; for means of several determinations");
    row.words.option("--given", as.given, "absolute, or relative in % of the mean; otherwise absolute");
    row.words.option("--from", as.low, "Of results from here on");
    row.words.option("--to", as.high, "Up to here");
    row.words.option("--mill-means-of", as.mill_replicates, "Determinations behind a result of the mill");
    row.words.option("--our-means-of", as.own_replicates, "Determinations behind one of yours");
    row.words.option("--source", as.source, "The standard with its clause, or the ring test");
    auto gone = grammar.command("drop-test-precision", "Take limits of your own off the list", drop);
    gone.words.option("row", gone.typed.row, "Its number in the list").required();
}

} // namespace mellowbin::cli
