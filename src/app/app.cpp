#include "app/app.h"

#include "app/acts/failure.h"
#include "app/acts/plant_set_up.h"
#include "app/acts/state.h"
#include "app/book/settings.h"
#include "app/book/setup.h"
#include "app/models/card.h"
#include "app/models/keeping.h"
#include "app/models/learning.h"
#include "app/models/levers.h"
#include "app/models/storage.h"
#include "app/models/story.h"

#include <exception>

namespace mellowbin::app {
namespace {

/// Reads again what was touched.
void read_again(State& s, Touched touched) {
    if (has(touched, Touched::law) || has(touched, Touched::choices)) {
        s.book = Book::read(*s.connection);
        return;
    }
    if (has(touched, Touched::lots))
        s.book.read_lots_again(*s.connection);
    if (has(touched, Touched::runs))
        s.book.read_runs_again(*s.connection);
    if (has(touched, Touched::retests))
        s.book.read_retests_again(*s.connection, s.retested);
    if (has(touched, Touched::climate))
        s.book.read_climate_again(*s.connection);
    if (has(touched, Touched::learning))
        s.book.read_learning_again(*s.connection);
    if (has(touched, Touched::batches))
        s.book.read_batches_again(*s.connection);
    if (has(touched, Touched::bakes))
        s.book.read_bakes_again(*s.connection);
}

void show_opened_lot(State& s) {
    s.lots.opened = make_lot_sheet(s, s.opened_lot);
    if (s.lots.opened)
        s.lots.opened->bakes_logged = s.bakes_logged;
}

void show_readiness(State& s) {
    make_readiness(s, s.as_of, s.readiness);
    s.readiness.retests_logged = s.retests_logged;
}

void show_plan(State& s) {
    s.plan = make_plan(s, s);
    s.plan.levers = s.mixer.levers;
}

void show_mixer(State& s) {
    make_mixer(s, s, s.mixer);
    s.mixer.batches_logged = s.batches_logged;
    s.plan.levers = s.mixer.levers;
}

void show_settings(State& s) {
    s.settings = make_settings(s);
    s.settings.set_aside_words = s.set_aside;
    s.settings.places = make_storage(s);
    s.settings.learning = make_learning(s, s.offered);
}

void show_overview(State& s) { s.overview = make_overview(s, s.plan_work, s.plan, s.readiness, s.settings); }

void make_touched(State& s, Touched touched) {
    if (touched == Touched::nothing)
        return;
    const bool aging =
        has(touched, Touched::retests) || has(touched, Touched::climate) || has(touched, Touched::learning);
    const bool lots = has(touched, Touched::lots) || aging;
    const bool runs = has(touched, Touched::runs);
    const bool choices = has(touched, Touched::choices);
    const bool doughs = has(touched, Touched::batches) || has(touched, Touched::bakes);
    const bool book = lots || runs || doughs || has(touched, Touched::law) || choices;
    s.book_changes += book ? 1 : 0;
    read_again(s, touched);
    if (aging)
        s.offered.reset();
    // Lots, too: of one that is found again all its doughs count.
    if (doughs || choices || has(touched, Touched::lots))
        s.doughs.follow(*s.connection, s.book);
    if (lots || choices) {
        s.estimates.follow(s.book, s.today());
        make_lots(s, s.lots);
    }
    if (book || has(touched, Touched::opened_lot))
        show_opened_lot(s);
    if (lots || runs || choices || has(touched, Touched::as_of))
        show_readiness(s);
    if (book || has(touched, Touched::opened_lot) || has(touched, Touched::as_of))
        s.readiness.opened = make_story(s, s.opened_lot, s.as_of);
    if (book || has(touched, Touched::plan_span))
        show_plan(s);
    if (book || has(touched, Touched::opened_run))
        show_mixer(s);
    if (book)
        show_settings(s);
    else if (has(touched, Touched::comparison))
        s.settings.learning = make_learning(s, s.offered);
    show_overview(s);
}

/// All that the screens show, from the book as it is kept here.
void make_everything(State& s) {
    s.estimates.follow(s.book, s.today());
    s.doughs.follow(*s.connection, s.book);
    make_intake(s, s.intake);
    make_lots(s, s.lots);
    show_readiness(s);
    show_plan(s);
    show_mixer(s);
    show_settings(s);
    show_overview(s);
}

/// Forgets what was made of the book, which a failure may have left half made, and makes it from the book.
void read_anew(State& s) {
    s.book = Book::read(*s.connection);
    s.estimates = {};
    s.doughs = {};
    s.offered.reset();
    ++s.book_changes;
    make_everything(s);
    show_opened_lot(s);
    s.readiness.opened = make_story(s, s.opened_lot, s.as_of);
}

/// What came of an intent, as the line people read. Looking at something says nothing and leaves the line
/// alone.
void tell(State& s, const Result<Told>& result, std::uint64_t number) {
    if (!result) {
        s.notice = {};
        s.notice.kind = Notice::Kind::refused;
        s.notice.words = result.refusals().size() == 1 ? in_words(result.refusals().front())
                                                       : "Not done: see the fields marked";
        s.notice.refusals = result.refusals();
        s.notice.number = number;
        return;
    }
    if (result->words.empty())
        return;
    s.notice = {};
    s.notice.kind = Notice::Kind::done;
    s.notice.words = result->words;
    s.notice.undo = result->undo;
    s.notice.undoing = result->undoing;
    s.notice.screen = result->screen;
    s.notice.number = number;
}

} // namespace

App::App(AppSetup setup) : state_(std::make_unique<State>()) {
    State& s = *state_;
    s.setup = std::move(setup);
    s.connection = open_book(s.setup);
    seed_law(*s.connection, s.setup.clock);
    s.book = Book::read(*s.connection);
    if (const auto zone = Choices(s.book.settings).words("time_zone"); !zone.empty())
        s.setup.clock.time_zone = zone;
    s.plan_from = s.today();
    make_everything(s);
}

App::~App() = default;

void App::sign_in(const std::string& person) {
    state_->setup.person = person;
    show_overview(*state_);
}

void App::handle(const Intent& intent) {
    State& s = *state_;
    const std::uint64_t number = s.notice.number + 1;
    s.connection->forget_last_change();
    try {
        const auto result = intent.happen(s);
        tell(s, result, number);
        if (result)
            make_touched(s, result->touched);
    } catch (const std::exception& error) {
        s.notice = failure(s, error, [&s] { read_anew(s); });
        s.notice.number = number;
    }
}

bool App::poll() {
    State& s = *state_;
    if (!s.plan_work.is_running())
        return false;
    if (!s.plan_work.is_done()) {
        s.plan.progress = s.plan_work.progress_in_words();
        s.overview.running = s.plan.progress;
        return true;
    }
    const std::uint64_t number = s.notice.number + 1;
    try {
        s.plan_work.take();
        tell(s, Result<Told>(Told{plan_in_words(*s.plan_work.proposal())}), number);
    } catch (const std::exception& error) {
        s.notice = failure_outside_the_book(error);
        s.notice.number = number;
    }
    show_plan(s);
    show_overview(s);
    return true;
}

void App::finish_work() {
    state_->plan_work.wait();
    poll();
}

const Notice& App::notice() const { return state_->notice; }
const Overview& App::overview() const { return state_->overview; }
const IntakeModel& App::intake() const { return state_->intake; }
const LotsModel& App::lots() const { return state_->lots; }
const ReadinessModel& App::readiness() const { return state_->readiness; }
const PlanModel& App::plan() const { return state_->plan; }
const MixerModel& App::mixer() const { return state_->mixer; }
const SettingsModel& App::settings() const { return state_->settings; }

CardModel App::card_of(RunId run) const { return make_card(*state_, state_->scanned, run); }

LeversModel App::levers_of(RunId run) const { return make_levers(*state_, run); }

std::optional<KeepingModel> App::keeping_of(const std::string& name) const {
    for (const auto& product : state_->book.products)
        if (product.name == name)
            return make_keeping(*state_, product.id);
    return {};
}

std::optional<RunId> App::run_of_code(const std::string& code) const {
    for (const auto& run : state_->book.runs)
        if (run.code == code)
            return run.id;
    return {};
}

} // namespace mellowbin::app
