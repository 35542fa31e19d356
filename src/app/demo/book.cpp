#include "app/demo/book.h"

#include "app/acts/bakes.h"
#include "app/acts/batches.h"
#include "app/acts/climate.h"
#include "app/acts/intake.h"
#include "app/acts/keeping.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/acts/plan.h"
#include "app/acts/plant_set_up.h"
#include "app/acts/retests.h"
#include "app/acts/runs.h"
#include "app/acts/solutions.h"
#include "app/acts/supply.h"
#include "app/app.h"
#include "app/book/clock.h"
#include "app/book/setup.h"
#include "app/demo/doughs.h"
#include "app/demo/loggers.h"
#include "app/demo/plant.h"
#include "app/models/card.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "db/sqlite_connection.h"

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <map>
#include <stdexcept>
#include <unistd.h>

namespace mellowbin::app {
namespace {

/// An invented delivery. Days count back from today.
struct DemoLot {
    const char* code;
    const char* mill;
    const char* flour;
    const char* place;
    int milled_before; ///< 0: nobody knows
    int delivered_before;
    const char* mass_kg;
    const char* price;
    const char *moisture, *protein, *absorption, *falling_number, *ash;
    const char* judgement; ///< "" released, "?" not judged yet, else held for this reason
    const char* mill_bromate = "";
};

constexpr std::array demo_lots{
    DemoLot{"PS-W118", "Pennick Stones", "Wholemeal", "Bay 2", 88, 84, "1800", "465", "13,1", "13.6", "67.2",
            "312", "1.58", ""},
    DemoLot{"SW-24081", "Sorrel Weir Mill", "Strong white", "Bay 1", 86, 81, "4500", "412", "13.6", "12.6",
            "61.0", "330", "0.52", ""},
    DemoLot{"OF-H311", "Old Ferrow Mill", "Hearth white", "Bay 2", 80, 76, "1000", "388", "13.8", "11.6",
            "58.4", "318", "0.55", ""},
    DemoLot{"SW-24102", "Sorrel Weir Mill", "Strong white", "Silo 1", 72, 68, "12000", "415", "13.4", "12.9",
            "61.6", "345", "0.51", ""},
    DemoLot{"OF-0917", "Old Ferrow Mill", "Strong white", "Bay 1", 63, 58, "8000", "405", "13.9", "12.1",
            "60.2", "310", "0.53", ""},
    DemoLot{"SW-H044", "Sorrel Weir Mill", "Hearth white", "Warm bay", 54, 50, "4600", "392", "13.5", "11.9",
            "58.9", "305", "0.57", ""},
    DemoLot{"PS-771", "Pennick Stones", "Strong white", "Bay 2", 49, 45, "5000", "398", "13.2", "13.2",
            "62.2", "352", "0.50", "", "30"},
    DemoLot{"OF-1004", "Old Ferrow Mill", "Strong white", "Warm bay", 38, 34, "9000", "407", "14.0", "12.7",
            "61.2", "322", "0.54", ""},
    DemoLot{"PS-W124", "Pennick Stones", "Wholemeal", "Bay 2", 37, 35, "4000", "470", "13.0", "13.8", "67.8",
            "325", "1.55", ""},
    DemoLot{"OF-W022", "Old Ferrow Mill", "Wholemeal", "Bay 2", 25, 22, "3000", "455", "13.3", "13.2", "66.5",
            "298", "1.62", ""},
    DemoLot{"OF-1021", "Old Ferrow Mill", "Strong white", "Bay 1", 19, 15, "6000", "405", "13.7", "12.5",
            "60.8", "228", "0.53", "falling number 228 s is below the specification; retest asked for"},
    DemoLot{"SW-H051", "Sorrel Weir Mill", "Hearth white", "Cool room", 18, 14, "1000", "392", "13.6", "11.4",
            "58.1", "315", "0.56", ""},
    DemoLot{"SW-24131", "Sorrel Weir Mill", "Strong white", "Bay 1", 8, 5, "12000", "418", "13.5", "13.1",
            "62.0", "340", "0.52", ""},
    DemoLot{"PS-W129", "Pennick Stones", "Wholemeal", "Bay 2", 0, 2, "3000", "470", "13.2", "13.9", "68.0",
            "331", "1.57", "?"},
};

/// What was found at the door beside all being well, invented.
struct DemoFinding {
    const char* lot;
    std::size_t question;
    const char *answer, *bags, *note;
    const char* released = ""; ///< why quality let it be used after all
};
constexpr std::array demo_findings{
    DemoFinding{"SW-24081", 3, "not looked at", "", "thermometer at the workshop"},
    DemoFinding{"OF-0917", 2, "not looked at", "", "came in the dark, looked at in the bay"},
    DemoFinding{"SW-H051", 1, "no", "2", "torn by the fork", "the two torn bags were thrown away"},
    DemoFinding{"PS-W129", 4, "not looked at", "", "the note comes by post"},
};

/// Invented results of the plant's own laboratory. Days count back from today.
struct DemoRetest {
    const char* lot;
    int before;
    Property property;
    const char* value;
};
constexpr std::array demo_retests{
    DemoRetest{"OF-1004", 33, Property::glutathione, "152"},
    DemoRetest{"OF-1004", 24, Property::glutathione, "104"},
    DemoRetest{"SW-24102", 66, Property::glutathione, "148"},
    DemoRetest{"SW-24102", 55, Property::glutathione, "101"},
    DemoRetest{"PS-771", 43, Property::glutathione, "150"},
    DemoRetest{"PS-771", 31, Property::glutathione, "112"},
    DemoRetest{"PS-771", 43, Property::extensograph_resistance, "285"},
    DemoRetest{"PS-771", 10, Property::extensograph_resistance, "331"},
    DemoRetest{"SW-24131", 4, Property::glutathione, "139"},
    DemoRetest{"OF-1021", 13, Property::alveograph_p, "78"},
    DemoRetest{"OF-1021", 2, Property::alveograph_p, "132"},
};

/// An invented week, repeated: day of the week (0 the first day), line, product, batches.
struct DemoRun {
    int day;
    const char* line;
    const char* product;
    const char* batches;
};

constexpr std::array week{
    DemoRun{0, "Line 1", "Pan bread", "6"},   DemoRun{0, "Line 1", "Wholemeal loaf", "4"},
    DemoRun{0, "Line 2", "Hearth loaf", "6"}, DemoRun{1, "Line 1", "Pan bread", "6"},
    DemoRun{1, "Line 2", "Burger bun", "5"},  DemoRun{2, "Line 1", "Pan bread", "7"},
    DemoRun{2, "Line 2", "Hearth loaf", "6"}, DemoRun{3, "Line 1", "Wholemeal loaf", "5"},
    DemoRun{3, "Line 2", "Burger bun", "6"},  DemoRun{4, "Line 1", "Pan bread", "8"},
    DemoRun{4, "Line 2", "Hearth loaf", "5"}, DemoRun{5, "Line 1", "Pan bread", "5"},
    DemoRun{5, "Line 2", "Burger bun", "4"},
};

/// People of the demo; first names only.
constexpr const char* warehouse = "Tomas";
constexpr const char* quality = "Ines";
constexpr const char* planning_desk = "Ada";
constexpr const char* mixer = "Joris";

/// Counted and not timed, so that the demo is the same each time it is made on one day.
constexpr std::int64_t planning_steps = 150'000;

/// A bakery's days gone through one by one, each act by the person whose job it is.
class DemoDays {
public:
    DemoDays(const std::string& path, Day today)
        : today_(today), now_(Instant{today}),
          app_({path, warehouse, Clock{[this] { return now_; }, {}, "UTC"}}) {}

    void live(const Progress& progress) {
        constexpr int days = 90;
        for (int before = days; before >= 0; --before) {
            if (progress)
                progress(fmt::format("day {} of {}", days - before, days),
                         static_cast<double>(days - before) / (days + 1));
            morning(before);
            for (const auto& lot : demo_lots)
                if (lot.delivered_before == before)
                    take_in(lot);
            for (const auto& lot : demo_lots)
                if (lot.delivered_before - 1 == before)
                    judge(lot);
            for (const auto& retest : demo_retests)
                if (retest.before == before)
                    log(retest);
            try_and_look(before);
            if (before == 7)
                plan_week(7);
            if (before >= 1 && before <= 7)
                mix_the_day();
        }
        for (const auto& logger : demo_loggers())
            read(logger);
        plan_week(0);
        plan_week(-7);
        act(planning_desk, ExpectDelivery{"Sorrel Weir Mill", "Strong white", "6000", iso(today_ + Days{8}),
                                          iso(today_ - Days{20})});
        act(planning_desk, PlanRuns{today_, 14, 0, planning_steps});
        app_.finish_work();
        act(planning_desk, AdoptPlan{});
        act(mixer, MakeSolution{"Ascorbic acid", "7.5", ""});
    }

private:
    void morning(int before) { now_ = Instant{today_ - Days{before}} + std::chrono::hours{5}; }

    void act(const char* person, const Intent& intent) {
        now_ += std::chrono::minutes{3};
        app_.sign_in(person);
        app_.handle(intent);
        if (app_.notice().kind != Notice::Kind::done)
            throw std::runtime_error("the demo book could not be made: " + app_.notice().words + " " +
                                     app_.notice().details);
    }

    void take_in(const DemoLot& d) {
        LotDraft draft;
        draft.code = d.code;
        draft.mill = d.mill;
        draft.flour = d.flour;
        draft.place = d.place;
        draft.delivery_note = fmt::format("N{:04}", 4000 + 17 * (100 - d.delivered_before));
        draft.delivered_on = iso(today_ - Days{d.delivered_before});
        if (d.milled_before > 0)
            draft.milled_on = iso(today_ - Days{d.milled_before});
        draft.mass_kg = d.mass_kg;
        draft.bag_kg = "25";
        draft.price_per_tonne = d.price;
        draft.figure(Property::moisture) = {Property::moisture, d.moisture, "", "ISO 712-1", ""};
        draft.figure(Property::protein) = {Property::protein, d.protein, "14 % moisture", "ISO 20483", ""};
        draft.figure(Property::absorption) = {Property::absorption, d.absorption, "14 % moisture",
                                              "ISO 5530-1", ""};
        draft.figure(Property::falling_number) = {Property::falling_number, d.falling_number, "", "ISO 3093",
                                                  ""};
        draft.figure(Property::ash) = {Property::ash, d.ash, "14 % moisture", "ISO 2171", ""};
        if (*d.mill_bromate) {
            draft.mill_oxidant = key_of(Substance::potassium_bromate);
            draft.mill_oxidant_ppm = d.mill_bromate;
        }
        act(warehouse, TakeIn{{draft}, at_the_door_of(d)});
    }

    /// All is well but for what is invented of the lot.
    std::vector<DoorCheckDraft> at_the_door_of(const DemoLot& d) const {
        std::vector<DoorCheckDraft> checks;
        for (const auto& question : app_.intake().door_questions)
            checks.push_back({question, "yes", "", ""});
        for (const auto& finding : demo_findings)
            if (std::string_view(finding.lot) == d.code)
                checks[finding.question] = {checks[finding.question].question, finding.answer, finding.bags,
                                            finding.note};
        return checks;
    }

    void judge(const DemoLot& d) {
        if (std::string_view(d.judgement) == "?")
            return;
        const LotId lot = lot_of(d.code);
        if (*d.judgement)
            act(quality, HoldLot{lot, d.judgement});
        else
            act(quality, ReleaseLot{lot, reason_of(d)});
    }

    /// A lot that the door held is released with a reason.
    static const char* reason_of(const DemoLot& d) {
        for (const auto& finding : demo_findings)
            if (std::string_view(finding.lot) == d.code)
                return finding.released;
        return "";
    }

    void log(const DemoRetest& d) {
        RetestDraft draft;
        draft.figure(d.property) = {d.property, d.value, traits(d.property).has_basis ? "14 % moisture" : "",
                                    "own", ""};
        act(quality, LogRetest{lot_of(d.lot), draft});
    }

    void read(const DemoLogger& logger) {
        const auto folder =
            std::filesystem::temp_directory_path() / fmt::format("mellowbin-demo-{}", ::getpid());
        std::filesystem::create_directories(folder);
        const auto file = folder / fmt::format("{}.csv", logger.place);
        std::ofstream(file) << log_of(logger, today_);
        act(quality, ReadClimateLog{logger.place, file.string()});
        std::filesystem::remove_all(folder);
    }

    LotId lot_of(std::string_view code) const {
        for (const auto& row : app_.lots().rows)
            if (row.code == code)
                return row.id;
        throw std::logic_error("a lot of the demo is missing");
    }

    /// Adds the runs of the week that begins so many days before today.
    void plan_week(int before) {
        const Day first = today_ - Days{before};
        for (const auto& run : week)
            act(planning_desk, AddRun{run.product, run.line, iso(first + Days{run.day}), run.batches});
        if (before <= 0)
            return;
        act(planning_desk, PlanRuns{first, 7, 0, planning_steps});
        app_.finish_work();
        act(planning_desk, AdoptPlan{});
    }

    void mix_the_day() {
        app_.handle(ShowPlan{app_.overview().today, 1});
        app_.handle(OpenRun{});
        for (const auto& run : app_.mixer().runs)
            for (CardModel card = app_.card_of(run.run); !card.is_finished && card.refusals.empty();
                 card = app_.card_of(run.run)) {
                act(mixer, ConfirmBatch{run.run});
                say_of(card);
            }
    }

    /// Points of absorption at 14 % moisture that the card's water lies above the blend's; nothing where that
    /// is not known.
    static std::optional<double> points_given(const CardModel& card) {
        const auto value_of = [&](std::string_view label) -> std::optional<double> {
            for (const auto& figure : card.figures)
                if (figure.label == label)
                    return figure.value;
            return {};
        };
        const auto absorption = value_of("Blend: Absorption"), moisture = value_of("Blend: Moisture");
        if (!absorption || !moisture || !card.water.value || !card.ice.value)
            return {};
        const double as_is = 100 * (*card.water.value + *card.ice.value) / card.flour_kg;
        return (100 + as_is) * 86 / (100 - *moisture) - 100 - *absorption;
    }

    /// What the operator says of the batch that this card was for.
    void say_of(const CardModel& card) {
        const auto result = demo_result(card.product, doughs_[card.product]++, *card.dough_temperature.value,
                                        points_given(card));
        if (!result.dough_temperature.empty())
            act(mixer, LogResult{app_.card_of(card.run).logged.front().id, result});
    }

    /// The laboratory's loaves and looks at kept bread of a day.
    void try_and_look(int before) {
        for (const auto& loaf : demo_loaves())
            if (loaf.before == before)
                act(quality, LogBake{lot_of(loaf.lot),
                                     {"Ascorbic acid", loaf.dose, "volume", loaf.ml, "", loaf.note}});
        for (const auto& kept : demo_kept())
            if (kept.baked_before - std::stoi(kept.days) == before)
                act(quality, LogKeeping{{kept.product, kept.kind, iso(today_ - Days{kept.baked_before}),
                                         kept.days, kept.finding, kept.firmness, kept.ph, kept.note}});
    }

    Day today_;
    Instant now_;
    App app_;
    std::map<std::string, int> doughs_; ///< mixed so far, by product
};

} // namespace

Result<std::string> make_demo_book(const std::string& path, Day today, const Progress& progress) {
    if (path != ":memory:" && std::filesystem::exists(path)) {
        return Refusal{"Book", fmt::format("\"{}\" is there already", path),
                       "Choose another name, or remove it yourself"};
    }
    const auto plant = exchange::read_plant_file(demo_plant());
    if (!plant)
        throw std::logic_error("the demo plant does not read: " + in_words(plant.refusals().front()));
    {
        SqliteConnection connection(path);
        const Clock clock = Clock::standing_at(today - Days{91});
        seed_law(connection, clock);
        if (const auto done = set_up_plant(connection, *plant, "demo", clock); !done)
            return done.refusals();
    }
    DemoDays(path, today).live(progress);
    return path;
}

} // namespace mellowbin::app
