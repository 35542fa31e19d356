#include "app/show.h"

#include "app/acts/certificates.h"
#include "app/models/card.h"
#include "app/models/learning.h"
#include "app/models/past.h"
#include "app/models/storage.h"
#include "app/models/story.h"

namespace mellowbin::app {
namespace {

constexpr int journal_lines = 200;          // on a page
constexpr std::size_t most_called_up = 200; // lots of the past that stay at hand

/// What of the book was written, as far as the read-models differ by it.
struct Written {
    bool lots = false;
    bool runs = false;
    bool plant = false; ///< what holds for all: places, products, law, settings
    bool aging = false; ///< what an estimate rests on beside the lot itself
    bool doughs = false;
    bool complaints = false;
    bool deliveries = false; ///< to come, begun, or come

    [[nodiscard]] bool anything() const {
        return lots || runs || plant || aging || doughs || complaints || deliveries;
    }
};

constexpr Written everything{true, true, true, true, true, true, true};

void note(Written& written, RecordKind kind) {
    using enum RecordKind;
    switch (kind) {
    case lot:
        written.lots = true;
        break;
    case delivery:
        written.deliveries = true;
        written.runs = true;
        break;
    case delivery_record:
    case begun_delivery:
        written.deliveries = true;
        break;
    case run:
    case reservation:
        written.runs = true;
        break;
    case retest:
    case climate_log:
    case learning:
        written.aging = true;
        break;
    case batch:
    case solution:
    case bake:
    case keeping:
        written.doughs = true;
        break;
    case complaint:
        written.complaints = true;
        break;
    case mill:
    case flour:
    case place:
    case line:
    case product:
    case limit:
    case propionate_limit:
    case setting:
    case test_precision:
        written.plant = true;
        break;
    }
}

Written written_by(const Changes& changes) {
    if (!changes.is_known)
        return everything;
    Written written;
    for (const auto& record : changes.records)
        note(written, record.kind);
    return written;
}

/// What is looked at may be of the past: then it is called up.
void call_up(State& s) {
    Book& book = s.book;
    Connection& connection = *s.connection;
    if (book.called_up() > most_called_up)
        book.put_past_away(connection, s.opened_lot, s.opened_run);
    if (s.opened_lot.is_known())
        book.call_up(connection, s.opened_lot);
    if (s.opened_run.is_known())
        book.call_up(connection, s.opened_run);
    book.call_up_runs(connection, s.plan_from, s.plan_from + Days{s.plan_days - 1});
    s.estimates.follow(book, s.today());
}

void show_opened_lot(State& s) {
    s.lots.opened = make_lot_sheet(s, s.opened_lot);
    if (s.lots.opened)
        s.lots.opened->bakes_logged = s.bakes_logged;
}

void show_past_lots(State& s) {
    if (s.past_lots)
        s.lots.past = make_past_lots(s, *s.past_lots);
    else
        s.lots.past.reset();
}

void show_readiness(State& s) {
    make_readiness(s, s.as_of, s.readiness);
    s.readiness.retests_logged = s.retests_logged;
}

void show_mixer(State& s) {
    make_mixer(s, s, s.mixer);
    s.mixer.batches_logged = s.batches_logged;
    s.plan.levers = s.mixer.levers;
}

void show_journal(State& s) {
    auto page = make_journal(s, s.journal_before, journal_lines);
    s.settings.journal = std::move(page.rows);
    s.settings.journal_has_newer = page.has_newer;
    s.settings.journal_has_older = page.has_older;
}

void show_plant(State& s) {
    make_plant(s, s.plant);
    s.plant.kept = s.plant_kept;
    s.plant.mill_words_changed = s.mill_words_changed;
}

void show_mill_record(State& s) {
    s.plant.mill_record.reset();
    if (s.mill_record && s.book.mill(s.mill_record->mill))
        s.plant.mill_record = make_mill_record(s, *s.mill_record);
    s.plant.complaints_changed = s.complaints_changed;
}

void show_trace(State& s) {
    s.trace = make_trace_page(s, s);
    s.trace.logged = s.went_logged;
}

void show_settings(State& s) {
    s.settings = make_settings(s);
    s.settings.log_read = s.log_read;
    s.settings.limits_changed = s.limits_changed;
    s.settings.precision_changed = s.precision_changed;
    s.settings.scanner = make_scanner(s, s.scanner);
    s.settings.places = make_storage(s);
    s.settings.learning = make_learning(s, s.offered);
    show_journal(s);
}

void show(State& s, const Written& written, Touched looked_at) {
    call_up(s);
    const bool book = written.anything();
    const bool lots = written.lots || written.aging || written.plant;
    if (written.plant) {
        make_intake(s, s.intake);
        understand_certificate(s); // by what mills write now
    }
    if (written.deliveries)
        show_deliveries(s, s.intake);
    if (written.plant || has(looked_at, Touched::plant_records))
        show_plant(s);
    if ((book && s.mill_record) || has(looked_at, Touched::mill_record))
        show_mill_record(s);
    if ((book && (s.traced || s.stock)) || has(looked_at, Touched::traced))
        show_trace(s);
    if ((lots || written.complaints) && s.lot_to_come)
        s.intake.own_test = own_test_advice(s, *s.lot_to_come);
    if (lots)
        make_lots(s, s.lots);
    if ((book && s.past_lots) || has(looked_at, Touched::past_lots))
        show_past_lots(s);
    if (book || has(looked_at, Touched::opened_lot))
        show_opened_lot(s);
    if (lots || written.runs || has(looked_at, Touched::as_of))
        show_readiness(s);
    if (book || has(looked_at, Touched::opened_lot) || has(looked_at, Touched::as_of))
        s.readiness.opened = make_story(s, s.opened_lot, s.as_of);
    if (book || has(looked_at, Touched::plan_span))
        show_plan(s);
    if (book || has(looked_at, Touched::opened_run))
        show_mixer(s);
    if (book)
        s.setting_up = make_setting_up(s);
    if (book)
        show_settings(s);
    else if (has(looked_at, Touched::comparison))
        s.settings.learning = make_learning(s, s.offered);
    if (!book && has(looked_at, Touched::past_journal))
        show_journal(s);
    show_overview(s);
}

} // namespace

void show_overview(State& s) {
    s.overview = make_overview(s, s.plan_work, s.plan, s.readiness, s.settings);
    s.overview.found = s.found;
}

void show_plan(State& s) {
    s.plan = make_plan(s, s);
    s.plan.levers = s.mixer.levers;
}

void show_all(State& s) { show(s, everything, Touched::nothing); }

void show(State& s, Touched looked_at) {
    if (looked_at != Touched::nothing)
        show(s, Written{}, looked_at);
}

void show(State& s, const Changes& changes, Touched looked_at) {
    const Written written = written_by(changes);
    if (!written.anything()) {
        show(s, looked_at);
        return;
    }
    ++s.book_changes;
    if (written.aging)
        s.offered.reset();
    // Lots, too: of one that is found again all its doughs count.
    if (written.doughs || written.lots || written.plant)
        s.doughs.follow(*s.connection, s.book);
    show(s, written, looked_at);
}

} // namespace mellowbin::app
