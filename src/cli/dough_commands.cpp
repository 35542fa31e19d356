#include "app/acts/bakes.h"
#include "app/acts/batches.h"
#include "app/acts/doughs.h"
#include "app/acts/keeping.h"
#include "app/acts/looking.h"
#include "app/acts/scans.h"
#include "app/acts/solutions.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/card.h"
#include "app/models/doughs.h"
#include "app/models/keeping.h"
#include "app/models/levers.h"
#include "app/models/levers_words.h"
#include "app/models/lots.h"
#include "app/models/settings.h"
#include "cli/dough_as_text.h"
#include "cli/grammar.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

RunId run_of(const App& app, const std::string& code) {
    const auto run = app.run_of_code(code);
    if (!run)
        throw Failed{fmt::format("Run: \"{}\" is not in the book; see mellowbin plan", code)};
    return *run;
}

struct RunTyped {
    std::string run;
};

int show_levers(Session& session, const RunTyped& typed) {
    const App app(session.set_up());
    const auto levers = app.levers_of(run_of(app, typed.run));
    if (session.wants_json())
        session.out() << levers_as_json(levers);
    else
        print_levers(session.out(), levers);
    return levers.refusals.empty() ? done : not_done;
}

int show_batches(Session& session, const RunTyped& typed) {
    const App app(session.set_up());
    const auto card = app.card_of(run_of(app, typed.run));
    if (session.wants_json())
        session.out() << batches_as_json(card);
    else
        print_batches(session.out(), card);
    return done;
}

struct ConfirmTyped {
    std::string run;
    BatchDraft went_in;
    std::vector<std::string> flour; ///< LOT=MASS
};

std::vector<FlourGiven> flour_from(const App& app, const std::vector<std::string>& typed) {
    std::vector<FlourGiven> flour;
    for (const auto& one : typed) {
        const auto at = one.find('=');
        if (at == std::string::npos)
            throw Failed{
                fmt::format("Flour: \"{}\" was read; LOT=MASS is expected, such as W24-118=98.5", one)};
        flour.push_back({lot_of(app, one.substr(0, at)), one.substr(at + 1)});
    }
    return flour;
}

int confirm_batch(Session& session, const ConfirmTyped& typed) {
    App app(session.set_up());
    ConfirmBatch intent{run_of(app, typed.run), typed.went_in, 0};
    intent.went_in.flour = flour_from(app, typed.flour);
    app.handle(intent);
    return session.told(app);
}

struct BatchTyped {
    std::string run;
    int batch = 0;
    ResultDraft result;
    std::string reason;
};

/// The batch of this number that stands; the newest where none is named.
BatchId batch_of(const App& app, const BatchTyped& typed) {
    const auto card = app.card_of(run_of(app, typed.run));
    const auto at = std::find_if(card.logged.begin(), card.logged.end(), [&](const BatchRow& row) {
        return !row.is_countered && (typed.batch == 0 || row.number == typed.batch);
    });
    if (at == card.logged.end())
        throw Failed{fmt::format("Batch: run {} has none{}; see mellowbin batches {}", typed.run,
                                 typed.batch ? fmt::format(" of number {}", typed.batch) : "", typed.run)};
    return at->id;
}

int log_result(Session& session, const BatchTyped& typed) {
    App app(session.set_up());
    app.handle(LogResult{batch_of(app, typed), typed.result});
    return session.told(app);
}

int counter_batch(Session& session, const BatchTyped& typed) {
    App app(session.set_up());
    app.handle(CounterBatch{batch_of(app, typed), typed.reason});
    return session.told(app);
}

struct ScanTyped {
    std::string run, scan;
};

int scan_bag(Session& session, const ScanTyped& typed) {
    App app(session.set_up());
    app.handle(ScanBag{run_of(app, typed.run), typed.scan});
    return session.told(app);
}

struct ClearTyped {
    std::string run, by, reason;
};

int clear_bags(Session& session, const ClearTyped& typed) {
    App app(session.set_up());
    app.handle(ClearBags{run_of(app, typed.run), typed.by, typed.reason});
    return session.told(app);
}

int make_solution(Session& session, const MakeSolution& typed) {
    App app(session.set_up());
    app.handle(typed);
    return session.told(app);
}

int change_dough(Session& session, const ChangeDough& typed) {
    App app(session.set_up());
    app.handle(typed);
    return session.told(app);
}

struct BakeTyped {
    std::string lot;
    BakeDraft bake;
};

int log_bake(Session& session, const BakeTyped& typed) {
    App app(session.set_up());
    app.handle(LogBake{lot_of(app, typed.lot), typed.bake});
    return session.told(app);
}

struct WithdrawTyped {
    std::int64_t id = 0;
    std::string reason;
};

int withdraw_bake(Session& session, const WithdrawTyped& typed) {
    App app(session.set_up());
    app.handle(WithdrawBake{BakeId{typed.id}, typed.reason});
    return session.told(app);
}

struct LotTyped {
    std::string lot;
};

int show_bakes(Session& session, const LotTyped& typed) {
    App app(session.set_up());
    app.handle(OpenLot{lot_of(app, typed.lot)});
    const auto& ladders = app.lots().opened->ladders;
    if (session.wants_json())
        session.out() << ladders_as_json(ladders);
    else
        print_ladders(session.out(), ladders);
    return done;
}

int log_keeping(Session& session, const KeepingDraft& typed) {
    App app(session.set_up());
    app.handle(LogKeeping{typed});
    return session.told(app);
}

int withdraw_keeping(Session& session, const WithdrawTyped& typed) {
    App app(session.set_up());
    app.handle(WithdrawKeeping{KeepingId{typed.id}, typed.reason});
    return session.told(app);
}

struct ProductTyped {
    std::string product;
};

int show_keeping(Session& session, const ProductTyped& typed) {
    const App app(session.set_up());
    const auto keeping = app.keeping_of(typed.product);
    if (!keeping)
        throw Failed{fmt::format("Product: \"{}\" is not in the book", typed.product)};
    if (session.wants_json())
        session.out() << keeping_as_json(*keeping);
    else
        print_keeping(session.out(), *keeping);
    return done;
}

void add_batch_commands(Grammar& grammar) {
    auto confirm = grammar.command(
        "confirm-batch", "The next batch of a run went in: as its card says, or as told here", confirm_batch);
    confirm.words.option("run", confirm.typed.run).required();
    confirm.words.option("--flour", confirm.typed.flour, "What went in of a lot: LOT=MASS, once a lot");
    confirm.words.option("--water", confirm.typed.went_in.water);
    confirm.words.option("--water-temperature", confirm.typed.went_in.water_temperature);
    confirm.words.option("--ice", confirm.typed.went_in.ice);
    confirm.words.option("--oxidant", confirm.typed.went_in.oxidant, "In the unit of the card: g or mL");
    confirm.words.option("--checked-by", confirm.typed.went_in.checked_by, "The second person");
    confirm.words.option("--reason", confirm.typed.went_in.answer,
                         "Why it is mixed all the same, where the card says: answer first");

    auto batches = grammar.command("batches", "The batches of a run as they were logged", show_batches);
    batches.words.option("run", batches.typed.run).required();

    auto result = grammar.command("log-result", "What came of a batch", log_result);
    result.words.option("run", result.typed.run).required();
    result.words.option("--batch", result.typed.batch, "Its number; the newest where none is given");
    result.words.option("--dough-temperature", result.typed.result.dough_temperature);
    result.words.option("--ph", result.typed.result.ph);
    result.words.option("--feel", result.typed.result.feel, "stiff, right or slack");
    result.words.option("--mixing", result.typed.result.mixing_minutes, "Minutes");
    result.words.option("--fermentation", result.typed.result.fermentation_minutes, "Minutes");
    result.words.option("--note", result.typed.result.note);
    result.words.option("--reason", result.typed.result.answer,
                        "Why the dough is far from what was aimed at");

    auto counter = grammar.command("counter-batch", "A batch was not mixed, or not so: its flour goes back",
                                   counter_batch);
    counter.words.option("run", counter.typed.run).required();
    counter.words.option("--batch", counter.typed.batch, "Its number; the newest where none is given");
    counter.words.option("--reason", counter.typed.reason).required();

    auto scan = grammar.command("scan-bag", "Hold a bag's lot against the card of a run", scan_bag);
    scan.words.option("run", scan.typed.run).required();
    scan.words.option("scan", scan.typed.scan, "A lot number, or a GS1 element string with one").required();

    auto clear =
        grammar.command("clear-bags", "Quality lets a wrong bag be: nothing of it went in", clear_bags);
    clear.words.option("run", clear.typed.run).required();
    clear.words.option("--by", clear.typed.by, "Who of quality").required();
    clear.words.option("--reason", clear.typed.reason).required();

    auto solution =
        grammar.command("make-solution", "An oxidant was dissolved for today's doughs", make_solution);
    solution.words.option("oxidant", solution.typed.substance, "Its name").required();
    solution.words.option("--strength", solution.typed.grams_per_litre, "g/L").required();
    solution.words.option("--keeps", solution.typed.keeps_hours, "Hours");
    solution.words.option("--reason", solution.typed.answer, "Why its strength is far from the line's");
}

void add_trial_commands(Grammar& grammar) {
    auto bake = grammar.command("log-bake", "A loaf of a lot's test bake series", log_bake);
    bake.words.option("lot", bake.typed.lot).required();
    bake.words.option("--oxidant", bake.typed.bake.substance, "Its name, also for the loaf without")
        .required();
    bake.words.option("--dose", bake.typed.bake.dose, "mg/kg of flour").required();
    bake.words.option("--measure", bake.typed.bake.measure, "volume or height").otherwise("volume");
    bake.words.option("--size", bake.typed.bake.size, "ml or mm").required();
    bake.words.option("--baked-on", bake.typed.bake.baked_on, "Today where none is given");
    bake.words.option("--note", bake.typed.bake.note);

    auto bakes = grammar.command("bakes", "A lot's loaves and the oxidant they ask for", show_bakes);
    bakes.words.option("lot", bakes.typed.lot).required();

    auto withdraw = grammar.command("withdraw-bake", "Take a loaf back", withdraw_bake);
    withdraw.words.option("number", withdraw.typed.id, "As in mellowbin bakes").required();
    withdraw.words.option("--reason", withdraw.typed.reason).required();
}

void add_keeping_commands(Grammar& grammar) {
    auto log = grammar.command("log-keeping", "What bread of a product did while it was kept", log_keeping);
    log.words.option("product", log.typed.product).required();
    log.words.option("--record", log.typed.kind, "mould or firmness").required();
    log.words.option("--baked-on", log.typed.baked_on).required();
    log.words.option("--days", log.typed.days, "After the bake").required();
    log.words.option("--finding", log.typed.finding, "none or mould");
    log.words.option("--firmness", log.typed.firmness, "g, by the site's own test");
    log.words.option("--ph", log.typed.ph, "Of the crumb");
    log.words.option("--note", log.typed.note);

    auto keeping = grammar.command("keeping", "How a product's bread keeps", show_keeping);
    keeping.words.option("product", keeping.typed.product).required();

    auto withdraw = grammar.command("withdraw-keeping", "Take a record back", withdraw_keeping);
    withdraw.words.option("number", withdraw.typed.id, "As in mellowbin keeping").required();
    withdraw.words.option("--reason", withdraw.typed.reason).required();
}

} // namespace

void add_dough_commands(Grammar& grammar) {
    add_batch_commands(grammar);
    auto levers = grammar.command("remedies", "What makes up for strength a run's flour lacks", show_levers);
    levers.words.option("run", levers.typed.run).required();
    add_trial_commands(grammar);
    add_keeping_commands(grammar);
    auto change = grammar.command("change-dough", "How a product's dough may be helped and its bread kept",
                                  change_dough);
    change.words.option("product", change.typed.product).required();
    change.words.option("--process", change.typed.process, "straight, sponge or no_time");
    change.words.option("--longest-fermentation", change.typed.most_fermentation, "Minutes; 0: never longer");
    change.words.option("--gain-an-hour", change.typed.maturity_per_hour,
                        "% of maturity an hour more stands for, by own bakes; none");
    change.words.option("--water-offset", change.typed.water_offset, "Points against the farinograph");
    change.words.option("--preservative", change.typed.preservative,
                        "calcium_propionate, sodium_propionate or cultured_wheat");
    change.words.option("--preservative-dose", change.typed.preservative_percent, "% of flour");
    change.words.option("--cultured-acid", change.typed.cultured_acid,
                        "% propionic acid in the cultured wheat");
    change.words.option("--erh", change.typed.erh, "% of the crumb, as measured; none");
    change.words.option("--enzyme", change.typed.enzyme, "In words; none");
    change.words.option("--sold-as", change.typed.sold_as,
                        "prepacked_sliced, prepacked_part_baked, prepacked_other or not_prepacked; none");
    change.words.option("--market", change.typed.market, "Key of the market whose limits it must meet");
    change.words.option("--house-maximum", change.typed.house_maximum,
                        "mg/kg of its oxidant, mill and bakery together; 0: none");
}

} // namespace mellowbin::cli
