#include "app/app.h"

#include "app/acts/certificates.h"
#include "app/acts/failure.h"
#include "app/acts/plant_set_up.h"
#include "app/acts/save_calendar.h"
#include "app/acts/state.h"
#include "app/book/settings.h"
#include "app/book/setup.h"
#include "app/models/card.h"
#include "app/models/deliveries.h"
#include "app/models/keeping.h"
#include "app/models/levers.h"
#include "app/models/past.h"
#include "app/show.h"
#include "db/drill_store.h"
#include "db/lot_store.h"
#include "db/run_store.h"
#include "db/settings_store.h"

#include <fmt/format.h>

#include <exception>

namespace mellowbin::app {
namespace {

constexpr int most_tries = 20; // an act takes milliseconds: nobody writes so often in between

/// What was derived on the way stays in the book for the next one to read it.
void keep_derived(State& s) {
    try {
        s.book.keep_climate_days(*s.connection);
    } catch (const BookError&) {
        // Then the next one derives it again.
    }
}

/// All that the screens show, from the book as it is now.
void read_anew(State& s) {
    s.book = Book::read(*s.connection, s.today());
    keep_derived(s);
    if (!s.plan_work.is_running() && !s.plan_work.proposal()) // they look at them
        s.estimates = {};
    s.doughs.follow(*s.connection, s.book,
                    part_of(s.setup.progress, "taking in what the doughs taught", 0, 1));
    s.offered.reset();
    s.elsewhere.clear();
    s.last_elsewhere.reset();
    ++s.book_changes;
    show_all(s);
}

/// What was written since; a book that could be followed only in part is read anew the next time.
Changes follow_book(State& s) {
    try {
        auto changes = s.book.follow(*s.connection);
        keep_derived(s);
        return changes;
    } catch (const BookError&) {
        s.book.day = Day{};
        throw;
    }
}

void take_in_of_others(State& s) {
    const auto changes = follow_book(s);
    s.remember(changes);
    show(s, changes, Touched::nothing);
}

/// The book as it is now, with what others wrote since this station looked last.
void follow_others(State& s) {
    if (s.book.day != s.today()) // other runs and lots are live
        read_anew(s);
    else if (s.connection->was_written_elsewhere())
        take_in_of_others(s);
}

/// Decided on the book as it is: where another station was quicker, once more on what it left.
Result<Told> decide(State& s, const Intent& intent) {
    for (int tries = 1;; ++tries) {
        try {
            return intent.happen(s);
        } catch (const BookMoved&) {
            if (tries == most_tries)
                throw BookError(BookFault::busy,
                                "Other stations write to the book all the time, so this could "
                                "not be decided on. Nothing was written. Try once more.");
            take_in_of_others(s);
        }
    }
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
    s.notice.document = result->document;
    s.notice.number = number;
}

/// Calendars see what the act changed. A file that cannot be written undoes nothing; it is told beside the
/// act.
void keep_calendar(State& s, std::int64_t version_before) {
    if (s.book.version == version_before)
        return;
    if (const auto failed = keep_calendar_file(s); !failed.empty())
        s.notice.words += fmt::format(". The calendar file is not up to date: {}", failed);
}

/// A certificate that was read on the worker. True when there was something to tell.
bool poll_certificate(State& s) {
    if (!s.certificate.is_done())
        return s.certificate.is_running();
    const std::uint64_t number = s.notice.number + 1;
    try {
        tell(s, take_certificate(s), number);
    } catch (const std::exception& error) {
        s.certificate.put_aside();
        understand_certificate(s); // shows that none is read any more
        s.notice = failure_outside_the_book(error);
        s.notice.number = number;
    }
    return true;
}

} // namespace

App::App(AppSetup setup) : state_(std::make_unique<State>()) {
    State& s = *state_;
    s.setup = std::move(setup);
    if (s.setup.station.empty())
        s.setup.station = station_name();
    s.connection = open_book(s.setup);
    seed_law(*s.connection, s.setup.clock);
    if (const auto zone = Choices(SettingsStore(*s.connection).all()).words("time_zone"); !zone.empty())
        s.setup.clock.time_zone = zone;
    s.plan_from = s.today();
    read_anew(s);
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
        follow_others(s);
        const auto version = s.book.version;
        const auto result = decide(s, intent);
        tell(s, result, number);
        // What is refused may have been written down all the same: a wrong bag.
        show(s, follow_book(s), result ? result->touched : Touched::nothing);
        keep_calendar(s, version);
    } catch (const std::exception& error) {
        s.notice = failure(s, error, [&s] { read_anew(s); });
        s.notice.number = number;
    }
}

bool App::poll() {
    State& s = *state_;
    const auto before = s.book.version;
    try {
        follow_others(s);
    } catch (const BookError&) {
        // It will be there the next time, or the next act says what is wrong with it.
    }
    const bool has_read = poll_certificate(s);
    if (!s.plan_work.is_running())
        return has_read || s.book.version != before;
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
    state_->certificate.wait();
    poll();
}

const Clock& App::clock() const { return state_->setup.clock; }
const Notice& App::notice() const { return state_->notice; }
const Overview& App::overview() const { return state_->overview; }
const IntakeModel& App::intake() const { return state_->intake; }
const LotsModel& App::lots() const { return state_->lots; }
const ReadinessModel& App::readiness() const { return state_->readiness; }
const PlanModel& App::plan() const { return state_->plan; }
const MixerModel& App::mixer() const { return state_->mixer; }
const PlantModel& App::plant() const { return state_->plant; }
const SettingsModel& App::settings() const { return state_->settings; }
const SettingUpModel& App::setting_up() const { return state_->setting_up; }
const TracePage& App::trace() const { return state_->trace; }

CardModel App::card_of(RunId run) const { return make_card(*state_, run); }

LeversModel App::levers_of(RunId run) const { return make_levers(*state_, run); }

std::optional<KeepingModel> App::keeping_of(const std::string& name) const {
    for (const auto& product : state_->book.products)
        if (product.name == name)
            return make_keeping(*state_, product.id);
    return {};
}

std::optional<RunId> App::run_of_code(const std::string& code) const {
    const auto run = RunStore(*state_->connection).find(code);
    if (!run)
        return {};
    state_->book.call_up(*state_->connection, run->id);
    state_->estimates.follow(state_->book, state_->today());
    return run->id;
}

std::vector<NamedLot> App::lots_of_code(const std::string& code) const {
    std::vector<NamedLot> found;
    for (const auto id : LotStore(*state_->connection).of_code(code)) {
        state_->book.call_up(*state_->connection, id);
        const Lot* lot = state_->book.lot(id);
        const Mill* mill = state_->book.mill(lot->mill);
        found.push_back({id, mill ? mill->name : "?", lot->code});
    }
    state_->estimates.follow(state_->book, state_->today());
    return found;
}

std::vector<DeliveryRow> App::deliveries(const std::string& mill, int count) const {
    return make_deliveries(*state_, mill, count);
}

std::optional<DeliveryRow> App::delivery(DeliveryId id) const {
    const auto record = DeliveryStore(*state_->connection).find(id);
    return record ? std::optional(make_delivery(*state_, *record)) : std::nullopt;
}

std::vector<TraceDispatch> App::dispatches(Day from, Day until, const std::string& product,
                                           const std::string& customer) const {
    DispatchQuery query{from, until, {}, customer};
    for (const auto& known : state_->book.products)
        if (known.name == product)
            query.product = known.id;
    if (!product.empty() && !query.product)
        return {};
    return dispatches_of(*state_, query);
}

std::optional<Drill> App::drill(DrillId id) const { return DrillStore(*state_->connection).find(id); }

std::vector<JournalRow> App::journal(int count) const { return make_journal(*state_, 0, count).rows; }

} // namespace mellowbin::app
