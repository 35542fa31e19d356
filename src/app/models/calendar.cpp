#include "app/models/calendar.h"

#include "app/book/settings.h"
#include "app/book/station.h"
#include "app/models/looked_at.h"
#include "app/models/lot_standing.h"
#include "app/models/plan.h"
#include "app/models/supply_events.h"
#include "core/counted.h"
#include "core/decimal.h"
#include "core/fingerprint.h"

#include <fmt/format.h>

#include <map>

namespace mellowbin::app {
namespace {

constexpr Days kept_behind{7};
constexpr int days_ahead = 28;

std::string kg(double mass) { return fixed(mass, 0) + " kg"; }

class Made {
public:
    explicit Made(const Station& s) : s_(s), mark_(plant_mark(s)) {}

    void lots() {
        for (const auto& lot : s_.book.lots)
            if (s_.book.is_live(lot.id) && lot.state != LotState::rejected &&
                s_.book.stock.total(lot.id) > Grams{})
                add_lot(lot);
    }
    void runs() {
        for (const auto& run : s_.book.runs)
            if (run.day >= s_.today() - kept_behind && run.day < s_.today() + Days{days_ahead})
                add_run(run);
    }
    void orders() {
        LookedAt plan;
        plan.plan_from = s_.today();
        plan.plan_days = days_ahead;
        std::map<std::string, int> counts;
        for (const auto& advice : make_plan(s_, plan).orders) {
            const int count = ++counts[advice.flour]; // there is no record of it: it is known by its flour
            if (advice.order_by)
                add(fmt::format("order-{:016x}-{}", fingerprint(advice.flour), count), *advice.order_by,
                    fmt::format("Last day to order {} {}", kg(advice.kg), advice.flour),
                    fmt::format("For {}.\n{}", advice.for_runs, advice.if_later));
        }
    }
    std::vector<exchange::CalendarDay> days;

private:
    void add(const std::string& what, Day day, std::string summary, std::string description) {
        days.push_back(
            {fmt::format("{}.{}@mellowbin", what, mark_), day, std::move(summary), std::move(description)});
    }
    void add_lot(const Lot& lot) {
        const Mill* mill = s_.book.mill(lot.mill);
        const Flour* flour = s_.book.flour(lot.flour);
        const auto what = fmt::format("{} of {}, {}", flour ? flour->name : "?", mill ? mill->name : "?",
                                      kg(to_kilograms(s_.book.stock.total(lot.id)).value()));
        const auto state = name_of(lot.state, standing_of(s_.book, lot, s_.today()));
        if (const auto ready = s_.estimates.outlook_today(lot.id).turns.mature_from)
            add(fmt::format("lot-{}-ready", lot.id.number()), *ready, fmt::format("Lot {} ready", lot.code),
                fmt::format("{}\n{}\nAn estimate: it holds with the confidence set", what, state));
        if (const auto last = last_day(lot))
            add(fmt::format("lot-{}-last-day", lot.id.number()), *last,
                fmt::format("Last day of lot {}", lot.code), fmt::format("{}\n{}", what, state));
    }
    void add_run(const Run& run) {
        const Product* product = s_.book.product(run.product);
        const Line* line = s_.book.line(run.line);
        std::string flour;
        for (const auto& planned : s_.book.assignments_of(run.id)) {
            const Lot* lot = s_.book.lot(planned.lot);
            flour += fmt::format("{}{} {}", flour.empty() ? "" : ", ", lot ? lot->code : "?",
                                 kg(to_kilograms(planned.mass).value()));
        }
        add(fmt::format("run-{}", run.id.number()), run.day,
            fmt::format("{} on {}: {}, {}", product ? product->name : "?", line ? line->name : "?",
                        counted(run.batches, "batch", "batches"), kg(to_kilograms(run.flour).value())),
            fmt::format("Run {}\n{}", run.code, flour.empty() ? "No flour planned yet" : "Flour: " + flour));
    }

    const Station& s_;
    std::string mark_;
};

} // namespace

CalendarModel make_calendar(const Station& s) {
    Made made(s);
    made.lots();
    made.runs();
    made.orders();
    const auto plant = Choices(s.book.settings).words("plant");
    return {plant.empty() ? "Flour and runs" : plant + ": flour and runs", std::move(made.days)};
}

} // namespace mellowbin::app
