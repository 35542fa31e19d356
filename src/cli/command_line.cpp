#include "cli/command_line.h"

#include "app/app.h"
#include "app/demo_book.h"
#include "app/plant_set_up.h"
#include "cli/as_json.h"
#include "cli/as_text.h"
#include "db/sqlite_connection.h"
#include "exchange/instance.h"
#include "exchange/plant_file.h"
#include "planning/make_plan.h"
#include "solver/clp_solver.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <filesystem>
#include <fstream>
#include <future>
#include <memory>
#include <ostream>
#include <sstream>

namespace mellowbin::cli {
namespace {

using namespace app;

/// What stops a command, already in words for stderr.
struct Failed {
    std::string words;
};

void complain(World& world, const Refusals& refusals) {
    for (const auto& refusal : refusals)
        fmt::print(world.err, "mellowbin: {}\n", in_words(refusal));
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

/// All options of all commands, as typed.
struct Words {
    std::string book, today, who;
    bool json = false;

    std::string file, out;
    std::string lot, reason, to, from_place, kg;
    std::string mill, flour, place, delivered_on, milled_on, weight, bag;
    std::string from;
    int days = 7;
    bool only_what_is_good = false, propose = false, today_all = false, without_bound = false;
    std::string run;
    std::string product, line, day, batches;
    std::int64_t limit = 0;
    std::string key, value;
    int newest = 50;
    bool dark = false;
    WindowWish window;
};

class Commands {
public:
    Commands(Words& words, World& world) : words_(words), world_(world) {}

    int window() {
        if (!world_.open_window)
            throw Failed{"this program was built without a window; see the other commands"};
        words_.window.is_dark = words_.dark;
        App app(set_up());
        return world_.open_window(app, words_.window);
    }

    int demo() {
        const auto path = book_path();
        make_folder_of(path);
        const auto made = make_demo_book(path, clock().today());
        if (!made)
            return refused(made.refusals());
        fmt::print(world_.out, "Demo book made: {}\n", *made);
        return done;
    }

    int plant() {
        const auto plant = exchange::read_plant_file(bytes_of(words_.file));
        if (!plant)
            return refused(plant.refusals());
        const auto path = book_path();
        make_folder_of(path);
        SqliteConnection connection(path);
        seed_law(connection, clock());
        const auto set = set_up_plant(connection, *plant, person(), clock());
        if (!set)
            return refused(set.refusals());
        fmt::print(world_.out, "{} is set up in {}\n", plant->plant, path);
        return done;
    }

    int take_in() {
        App app(set_up());
        LotDraft defaults;
        defaults.mill = words_.mill;
        defaults.flour = words_.flour;
        defaults.place = words_.place;
        defaults.delivered_on = words_.delivered_on;
        app.handle(TakeInFile{words_.file, defaults,
                              words_.only_what_is_good ? FaultyLines::leave_out : FaultyLines::take_nothing});
        for (const auto& note : app.intake().file_notes)
            fmt::print(world_.err, "mellowbin: note: {}\n", note);
        const int code = told(app);
        if (code != done) {
            world_.err << "mellowbin: nothing was taken in\n";
            return code;
        }
        complain(world_, app.intake().file_refusals); // lines left out
        return app.intake().file_refusals.empty() ? done : not_done;
    }

    int release() { return judge(ReleaseLot{{}, words_.reason}); }
    int hold() { return judge(HoldLot{{}, words_.reason}); }
    int reject() { return judge(RejectLot{{}, words_.reason}); }

    int move() {
        App app(set_up());
        const auto place = [&](const std::string& name) {
            for (const auto& [id, known] : app.lots().places)
                if (known == name)
                    return id;
            throw Failed{fmt::format("Place: \"{}\" is not known", name)};
        };
        app.handle(MoveLot{lot_of(app, words_.lot), place(words_.from_place), place(words_.to), words_.kg});
        return told(app);
    }

    int lots() {
        const App app(set_up());
        if (words_.json)
            world_.out << lots_as_json(app.lots());
        else
            print_lots(world_.out, app.lots());
        return done;
    }

    int readiness() {
        App app(set_up());
        if (const auto day = day_from(words_.day))
            app.handle(ShowAsOf{*day});
        if (words_.json)
            world_.out << readiness_as_json(app.readiness());
        else
            print_readiness(world_.out, app.readiness());
        return done;
    }

    int add_run() {
        App app(set_up());
        app.handle(AddRun{words_.product, words_.line, words_.day, words_.batches});
        return told(app);
    }

    int plan() {
        if (!words_.file.empty())
            return plan_instance();
        App app(set_up());
        const Day from = day_from(words_.from).value_or(app.overview().today);
        app.handle(ShowPlan{from, words_.days});
        if (words_.propose) {
            app.handle(PlanRuns{from, words_.days});
            if (app.notice().kind != Notice::Kind::done)
                return told(app);
            app.finish_work();
            app.handle(AdoptPlan{});
            if (app.notice().kind != Notice::Kind::done)
                return told(app);
        }
        if (words_.json)
            world_.out << plan_as_json(app.plan());
        else
            print_plan(world_.out, app.plan());
        return done;
    }

    int card() {
        App app(set_up());
        std::vector<CardModel> cards;
        if (words_.today_all) {
            for (const auto& run : app.mixer().runs)
                cards.push_back(app.card_of(run.run));
        } else {
            const auto run = app.run_of_code(words_.run);
            if (!run)
                throw Failed{fmt::format("Run: \"{}\" is not in the book; see mellowbin plan", words_.run)};
            cards.push_back(app.card_of(*run));
        }
        if (words_.json) {
            world_.out << cards_as_json(cards);
        } else {
            if (cards.empty())
                world_.out << "No runs today.\n";
            for (const auto& one : cards) {
                print_card(world_.out, one);
                world_.out << '\n';
            }
        }
        const bool is_refused = !words_.today_all && !cards.front().refusals.empty();
        return is_refused ? not_done : done;
    }

    int confirm_batch() {
        App app(set_up());
        const auto run = app.run_of_code(words_.run);
        if (!run)
            throw Failed{fmt::format("Run: \"{}\" is not in the book; see mellowbin plan", words_.run)};
        app.handle(ConfirmBatch{*run});
        return told(app);
    }

    int limits() {
        const App app(set_up());
        if (words_.json)
            world_.out << limits_as_json(app.settings().limits);
        else
            print_limits(world_.out, app.settings().limits);
        return done;
    }

    int confirm_limit() {
        App app(set_up());
        app.handle(ConfirmLimit{words_.limit});
        return told(app);
    }

    int set() {
        App app(set_up());
        app.handle(ChangeSetting{words_.key, words_.value});
        return told(app);
    }

    int journal() {
        const App app(set_up());
        auto rows = app.settings().journal;
        if (rows.size() > static_cast<std::size_t>(words_.newest))
            rows.resize(static_cast<std::size_t>(words_.newest));
        if (words_.json)
            world_.out << journal_as_json(rows);
        else
            print_journal(world_.out, rows);
        return done;
    }

    int copy() {
        SqliteConnection connection(existing_book());
        const auto saved = connection.save_copy(words_.file);
        if (!saved)
            return refused(saved.refusals());
        fmt::print(world_.out, "Book copied to {}\n", words_.file);
        return done;
    }

    int check() {
        SqliteConnection connection(existing_book());
        const auto faults = connection.faults();
        for (const auto& fault : faults)
            fmt::print(world_.err, "mellowbin: {}\n", fault);
        if (faults.empty())
            world_.out << "The book is sound.\n";
        return faults.empty() ? done : not_done;
    }

private:
    int refused(const Refusals& refusals) {
        complain(world_, refusals);
        return not_done;
    }

    /// What the app said, on the stream where it belongs.
    int told(const App& app) {
        const Notice& notice = app.notice();
        if (notice.kind == Notice::Kind::refused)
            return refused(notice.refusals);
        if (notice.kind == Notice::Kind::failed) {
            fmt::print(world_.err, "mellowbin: {}\n", notice.words);
            if (!notice.details.empty())
                fmt::print(world_.err, "mellowbin: {}\n", notice.details);
            return not_done;
        }
        if (!notice.words.empty())
            fmt::print(world_.out, "{}\n", notice.words);
        return done;
    }

    template <class Judgement> int judge(Judgement judgement) {
        App app(set_up());
        judgement.lot = lot_of(app, words_.lot);
        app.handle(judgement);
        return told(app);
    }

    LotId lot_of(const App& app, const std::string& code) const {
        std::optional<LotId> found;
        for (const auto& row : app.lots().rows) {
            if (row.code != code && row.mill + "/" + row.code != code)
                continue;
            if (found)
                throw Failed{fmt::format("Lot: \"{}\" came from two mills; write it as MILL/LOT", code)};
            found = row.id;
        }
        if (!found)
            throw Failed{fmt::format("Lot: \"{}\" is not in the book; see mellowbin lots", code)};
        return *found;
    }

    std::optional<Day> day_from(const std::string& text) const {
        const auto day = read_day("Day", text);
        if (!day)
            throw Failed{in_words(day.refusals().front())};
        return *day;
    }

    Clock clock() const {
        if (const auto day = day_from(words_.today))
            return Clock::standing_at(*day);
        return Clock::of_the_machine();
    }

    std::string person() const { return words_.who.empty() ? world_.person : words_.who; }

    std::string book_path() const {
        if (!words_.book.empty())
            return words_.book;
        const std::string data = world_.data_home.empty() ? world_.home + "/.local/share" : world_.data_home;
        return data + "/mellowbin/plant.mbook";
    }

    /// A reading command makes no book where there is none: a mistyped name would look like an empty plant.
    std::string existing_book() const {
        const auto path = book_path();
        if (path != ":memory:" && !std::filesystem::exists(path)) {
            throw Failed{fmt::format(
                "there is no book \"{}\"; make one with mellowbin plant FILE, or mellowbin demo", path)};
        }
        return path;
    }

    static void make_folder_of(const std::string& path) {
        const auto folder = std::filesystem::path(path).parent_path();
        std::error_code error;
        if (!folder.empty())
            std::filesystem::create_directories(folder, error);
        if (error)
            throw Failed{fmt::format("the folder {} cannot be made: {}", folder.string(), error.message())};
    }

    AppSetup set_up() const { return {existing_book(), person(), clock()}; }

    int plan_instance() {
        const auto problem = exchange::read_instance(bytes_of(words_.file));
        if (!problem)
            return refused(problem.refusals());
        std::future<std::optional<double>> bound;
        if (!words_.without_bound) { // beside the plan, with a solver of its own
            bound = std::async(std::launch::async, [&problem] {
                solver::ClpSolver solver;
                return planning::prove_bound(*problem, solver, {});
            });
        }
        solver::ClpSolver solver;
        planning::Effort effort;
        effort.bound = planning::BoundProof::leave_out;
        auto outcome = planning::make_plan(*problem, solver, effort, nullptr, {});
        if (bound.valid())
            outcome.bound = bound.get();
        const auto text = exchange::write_plan(*problem, outcome.plan, outcome.evaluation, outcome.bound);
        if (words_.out.empty()) {
            world_.out << text;
            return done;
        }
        std::ofstream file(words_.out, std::ios::binary);
        file << text;
        file.close();
        if (!file)
            throw Failed{fmt::format("\"{}\" cannot be written", words_.out)};
        fmt::print(world_.out, "Plan written to {}: objective {:.1f}\n", words_.out,
                   outcome.evaluation.objective);
        return done;
    }

    Words& words_;
    World& world_;
};

/// The grammar of the command line. Each command sets `chosen`.
class Grammar {
public:
    explicit Grammar(Words& words)
        : words_(words), parser_("mellowbin: flour lots, their maturity, and the dough they go into") {
        parser_.require_subcommand(1);
        parser_.fallthrough();
        parser_.add_option("--book", words_.book,
                           "The book's file; otherwise plant.mbook in your data folder");
        parser_.add_option("--today", words_.today, "Work as if today were this day (YYYY-MM-DD)");
        parser_.add_option("--who", words_.who, "Whose name goes into the journal; otherwise your login");
        parser_.add_flag("--json", words_.json, "JSON instead of text, for commands that show something");
        parser_.set_version_flag("--version", "mellowbin 0.1.0");
        window();
        books();
        lots();
        plans();
        law_and_settings();
    }

    CLI::App& parser() { return parser_; }
    int (Commands::*chosen)() = nullptr;

private:
    CLI::App* command(const char* name, const char* what, int (Commands::*act)()) {
        auto* sub = parser_.add_subcommand(name, what);
        sub->callback([this, act] { chosen = act; });
        return sub;
    }
    void window() {
        auto* sub = command("window", "Open the window", &Commands::window);
        sub->add_option("--shot", words_.window.shot, "Draw the screen into this PNG file and leave");
        sub->add_option("--screen", words_.window.screen, "Intake, Lots, Readiness, Plan, Mixer or Settings");
        sub->add_option("--text-size", words_.window.text_size, "1 to 2")->check(CLI::Range(1.0, 2.0));
        sub->add_option("--width", words_.window.width)->check(CLI::Range(640, 8192));
        sub->add_option("--height", words_.window.height)->check(CLI::Range(480, 8192));
        sub->add_flag("--dark", words_.dark, "Dark, for offices at night");
    }
    void books() {
        command("demo", "Make a book of an invented bakery", &Commands::demo);
        command("plant", "Put a plant file (mills, flours, places, lines, products) into the book",
                &Commands::plant)
            ->add_option("file", words_.file, "The plant file (JSON)")
            ->required();
        command("copy", "Copy the book while it is in use", &Commands::copy)
            ->add_option("to", words_.file, "The copy's file")
            ->required();
        command("check", "Read the whole book and say what is wrong with it", &Commands::check);
        command("journal", "Show what was done, newest first", &Commands::journal)
            ->add_option("--newest", words_.newest, "How many lines")
            ->check(CLI::Range(1, 500));
    }
    void lots() {
        auto* take_in = command("take-in", "Take lots in from a certificate file (CSV)", &Commands::take_in);
        take_in->add_option("file", words_.file, "The file; its columns are named in its first line")
            ->required();
        take_in->add_option("--mill", words_.mill, "Where the file has no column for it");
        take_in->add_option("--flour", words_.flour, "Where the file has no column for it");
        take_in->add_option("--place", words_.place, "Where the file has no column for it");
        take_in->add_option("--delivered-on", words_.delivered_on,
                            "Where the file has no column for it; otherwise today");
        take_in->add_flag("--only-what-is-good", words_.only_what_is_good,
                          "Leave out the lines that are refused");
        command("lots", "List the lots", &Commands::lots);
        judging("release", "Release a lot for dough", &Commands::release);
        judging("hold", "Hold a lot back", &Commands::hold)->get_option("--reason")->required();
        judging("reject", "Reject a lot", &Commands::reject)->get_option("--reason")->required();
        auto* move = command("move", "Move flour of a lot to another place", &Commands::move);
        move->add_option("lot", words_.lot)->required();
        move->add_option("--from", words_.from_place, "The place it leaves")->required();
        move->add_option("--to", words_.to, "The place it goes to")->required();
        move->add_option("--kg", words_.kg, "How much")->required();
        command("readiness", "How far each lot has matured", &Commands::readiness)
            ->add_option("--as-of", words_.day, "Asked for this day instead of today");
    }
    CLI::App* judging(const char* name, const char* what, int (Commands::*act)()) {
        auto* sub = command(name, what, act);
        sub->add_option("lot", words_.lot, "Lot number, or MILL/LOT")->required();
        sub->add_option("--reason", words_.reason, "In a few words");
        return sub;
    }
    void plans() {
        auto* run = command("add-run", "Add a run to the plan", &Commands::add_run);
        run->add_option("--product", words_.product)->required();
        run->add_option("--line", words_.line)->required();
        run->add_option("--day", words_.day)->required();
        run->add_option("--batches", words_.batches)->required();
        auto* plan = command("plan", "Show the plan; with --make, make and adopt one", &Commands::plan);
        plan->add_option("--from", words_.from, "First day; otherwise today");
        plan->add_option("--days", words_.days, "How many days")->check(CLI::Range(1, 56));
        plan->add_flag("--make", words_.propose, "Assign lots to the runs anew, and adopt the plan");
        plan->add_option("--instance", words_.file, "Plan this planning instance (JSON) instead of the book");
        plan->add_option("--out", words_.out, "Write the instance's plan into this file");
        plan->add_flag("--without-bound", words_.without_bound,
                       "Do not prove how much better the instance's plan could be at most");
        auto* card = command("card", "The mixer's card of a run", &Commands::card);
        auto* code = card->add_option("run", words_.run, "The run's code, as on the plan");
        auto* all = card->add_flag("--today-all", words_.today_all, "The cards of all runs of today");
        code->excludes(all);
        card->callback([this] {
            if (words_.run.empty() && !words_.today_all)
                throw CLI::RequiredError("a run's code, or --today-all,");
            chosen = &Commands::card;
        });
        command("confirm-batch", "The next batch of a run went in as its card says", &Commands::confirm_batch)
            ->add_option("run", words_.run)
            ->required();
    }
    void law_and_settings() {
        command("limits", "Show the limits on oxidants, market by market", &Commands::limits);
        command("confirm-limit", "A qualified person has read this limit's text and answers for it",
                &Commands::confirm_limit)
            ->add_option("number", words_.limit, "Its number in the list of limits")
            ->required();
        auto* set = command("set", "Change a setting", &Commands::set);
        set->add_option("key", words_.key)->required();
        set->add_option("value", words_.value)->required();
    }

    Words& words_;
    CLI::App parser_;
};

} // namespace

int run(const std::vector<std::string>& words, World& world) {
    Words typed;
    Grammar grammar(typed);
    std::vector<std::string> reversed(words.rbegin(), words.rend()); // as CLI11 wants them
    try {
        grammar.parser().parse(reversed);
    } catch (const CLI::ParseError& error) {
        const int code = grammar.parser().exit(error, world.out, world.err);
        return code == 0 ? done : bad_usage;
    }
    try {
        Commands commands(typed, world);
        return (commands.*grammar.chosen)();
    } catch (const Failed& failed) {
        fmt::print(world.err, "mellowbin: {}\n", failed.words);
    } catch (const BookError& error) {
        fmt::print(world.err, "mellowbin: {}\n", error.what());
    } catch (const std::exception& error) {
        fmt::print(world.err, "mellowbin: {}\n", error.what());
    }
    return not_done;
}

} // namespace mellowbin::cli
