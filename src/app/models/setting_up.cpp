#include "app/models/setting_up.h"

#include "app/book/fields.h"
#include "app/book/settings.h"
#include "app/book/station.h"
#include "app/models/intake.h"
#include "app/models/plant.h"
#include "db/run_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

struct StepTraits {
    std::string_view name, said;
    std::optional<PlantKind> kind = {};
};
constexpr std::array<StepTraits, set_up_steps> table{{
    {"Plant", "the plant's name"},
    {"Mill", "a mill", PlantKind::mill},
    {"Flour", "a flour", PlantKind::flour},
    {"Place", "a place", PlantKind::place},
    {"Line", "a line", PlantKind::line},
    {"Product", "a product", PlantKind::product},
    {"Lot", "your first lot"},
    {"Release", "quality's word on the lot"},
    {"Run", "a run with the lot"},
    {"Card", "the mixer's card"},
}};
const StepTraits& traits(SetUpStep step) { return table[static_cast<std::size_t>(step)]; }

std::string in_short(const std::vector<std::string>& names) {
    if (names.empty())
        return {};
    return names.size() == 1 ? names.front() : fmt::format("{} and {} more", names.front(), names.size() - 1);
}

/// The first of the kind that holds.
template <class Record>
void take_records(const Station& s, PlantKind kind, const std::vector<Record>& records,
                  std::vector<std::string>& names, SettingUpModel& model) {
    names = names_in_use(records);
    const auto at =
        std::find_if(records.begin(), records.end(), [](const Record& record) { return !record.is_retired; });
    if (at == records.end())
        return;
    const PlantRef ref{kind, at->id.number()};
    if (const auto draft = plant_draft_in(s.book, ref))
        model.records[static_cast<std::size_t>(kind)] = SetUpRecord{ref, *draft};
}

void take_plant(const Station& s, SettingUpModel& model) {
    const Choices choices(s.book.settings);
    model.plant = choices.words("plant");
    model.time_zone = choices.words("time_zone");
    take_records(s, PlantKind::mill, s.book.mills, model.mills, model);
    take_records(s, PlantKind::flour, s.book.flours, model.flours, model);
    take_records(s, PlantKind::place, s.book.places, model.places, model);
    take_records(s, PlantKind::line, s.book.lines, model.lines, model);
    take_records(s, PlantKind::product, s.book.products, model.products, model);
    for (const auto& market : s.book.markets)
        model.markets.push_back(market.key);
    model.bases = basis_choices();
}

std::optional<SetUpRun> as_run(const Station& s, const Run& run, bool has_flour) {
    const Product* product = s.book.product(run.product);
    return SetUpRun{run.id, run.code, product ? product->name : "", run.day, has_flour};
}

/// The first run ahead that has flour; else the first that wants some.
std::optional<SetUpRun> first_run(const Station& s) {
    std::optional<SetUpRun> wanting;
    for (const auto& run : s.book.runs) {
        if (run.day < s.today())
            continue;
        const bool has_flour = std::any_of(s.book.assignments.begin(), s.book.assignments.end(),
                                           [&](const Assignment& a) { return a.run == run.id; });
        if (has_flour)
            return as_run(s, run, true);
        if (!wanting)
            wanting = as_run(s, run, false);
    }
    return wanting;
}

/// Whether the run could have the lot, as far as its kind of flour goes.
bool suits(const Station& s, const Lot& lot, const std::optional<SetUpRun>& run) {
    const Run* of = run ? s.book.run(run->id) : nullptr;
    const Product* product = of ? s.book.product(of->product) : nullptr;
    return !product || part_of(*product, lot.flour).has_value();
}

/// A released lot of which there is some, for the run if one is there; else one that quality has to look at.
const Lot* lot_at_hand(const Station& s, const std::optional<SetUpRun>& run) {
    const Lot* found = nullptr;
    int best = 0;
    for (const auto& lot : s.book.lots) {
        if (!s.book.is_live(lot.id))
            continue;
        const bool is_released = lot.state == LotState::released && !stands_on_hold(lot, s.today()) &&
                                 !s.book.stock.places_of(lot.id).empty();
        const bool is_to_judge = lot.state == LotState::awaiting_judgement || lot.state == LotState::held;
        const int worth = is_released ? 2 + suits(s, lot, run) : is_to_judge ? 1 : 0;
        if (worth > best) {
            found = &lot;
            best = worth;
        }
    }
    return found;
}

SetUpLot as_lot(const Station& s, const Lot& lot) {
    SetUpLot row{lot.id, lot.code, lot.state, lot.state_reason, {}};
    const bool is_to_judge = lot.state == LotState::awaiting_judgement || lot.state == LotState::held;
    if (!is_to_judge)
        return row;
    if (auto sheet = make_lot_sheet(s, lot.id)) {
        row.findings = std::move(sheet->door);
        row.findings.insert(row.findings.end(), sheet->results.begin(), sheet->results.end());
        row.fails = !sheet->failing.empty();
    }
    return row;
}

bool has_lot(const Station& s, std::initializer_list<LotState> states) {
    return std::any_of(s.book.lots.begin(), s.book.lots.end(), [&](const Lot& lot) {
        return std::find(states.begin(), states.end(), lot.state) != states.end();
    });
}

/// Flour was given to a run, or runs are behind us: who works with the book needs no first one.
bool has_run(const Station& s, const SettingUpModel& model) {
    return (model.run && model.run->has_flour) || !s.book.batches.empty() ||
           RunStore(*s.connection).has_before(s.today());
}

void say(SettingUpModel& model, SetUpStep step, bool is_done, std::string words) {
    model.steps[static_cast<std::size_t>(step)] = {is_done, std::move(words)};
}

void say_steps(const Station& s, SettingUpModel& model) {
    using enum LotState;
    say(model, SetUpStep::plant, !model.plant.empty(), model.plant);
    for (const auto& [step, names] :
         {std::pair{SetUpStep::mill, &model.mills}, std::pair{SetUpStep::flour, &model.flours},
          std::pair{SetUpStep::place, &model.places}, std::pair{SetUpStep::line, &model.lines},
          std::pair{SetUpStep::product, &model.products}})
        say(model, step, !names->empty(), in_short(*names));
    const auto code = model.lot ? model.lot->code : std::string();
    say(model, SetUpStep::lot, has_lot(s, {awaiting_judgement, held, released, used_up}), code);
    say(model, SetUpStep::release, has_lot(s, {released, used_up}),
        has_lot(s, {released, used_up}) ? code : std::string());
    say(model, SetUpStep::run, has_run(s, model), model.run ? model.run->code : std::string());
    const auto at = std::find_if(model.steps.begin(), model.steps.end() - 1,
                                 [](const SetUpRow& row) { return !row.is_done; });
    model.next = static_cast<SetUpStep>(at - model.steps.begin());
    model.is_offered = model.next != SetUpStep::card;
}

} // namespace

std::string_view name_of(SetUpStep step) { return traits(step).name; }
std::string_view said_of(SetUpStep step) { return traits(step).said; }
std::optional<PlantKind> kind_of(SetUpStep step) { return traits(step).kind; }

SettingUpModel make_setting_up(const Station& s) {
    SettingUpModel model;
    take_plant(s, model);
    model.run = first_run(s);
    if (const Lot* lot = lot_at_hand(s, model.run))
        model.lot = as_lot(s, *lot);
    say_steps(s, model);
    const Book& book = s.book;
    model.is_untouched = model.plant.empty() && book.mills.empty() && book.flours.empty() &&
                         book.places.empty() && book.lines.empty() && book.products.empty() &&
                         book.lots.empty();
    return model;
}

} // namespace mellowbin::app
