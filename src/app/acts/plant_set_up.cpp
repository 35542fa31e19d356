#include "app/acts/plant_set_up.h"

#include "app/acts/intent.h"
#include "app/acts/plant_described.h"
#include "app/acts/plant_records.h"
#include "app/acts/settings.h"
#include "app/acts/state.h"
#include "app/book/settings.h"
#include "app/models/settings.h"
#include "app/models/touched_runs.h"
#include "core/typed_text.h"
#include "db/limit_store.h"
#include "db/plant_store.h"
#include "db/propionate_store.h"
#include "db/settings_store.h"
#include "dough/limits.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

namespace mellowbin::app {
namespace {

/// The number a record of this name has in the book, if any.
template <class Record> auto number_of(const std::vector<Record>& known, const std::string& name) {
    const auto at = std::find_if(known.begin(), known.end(), [&](const Record& r) { return r.name == name; });
    return at == known.end() ? decltype(Record::id){} : at->id;
}

/// The book has a record of the name in other letters: whether it is the same one, a person knows.
template <class Record>
void refuse_other_letters(PlantKind kind, const std::vector<Record>& known, const std::string& name,
                          Refusals& refusals) {
    for (const auto& record : known)
        if (record.name != name && same_words(record.name, name))
            refusals.push_back({fmt::format("{} {}", key_of(kind), name),
                                fmt::format("\"{}\" is in the book as \"{}\"", name, record.name),
                                "Write it as the book has it, or give it another name"});
}

template <class Record>
void save_all(Change& change, PlantKind kind, std::vector<Record> records, const std::vector<Record>& known,
              Refusals& refusals) {
    PlantStore store(change.connection());
    for (auto& record : records) {
        record.id = number_of(known, record.name);
        const auto before = refusals.size();
        if (!record.id.is_known())
            refuse_other_letters(kind, known, record.name, refusals);
        if (refusals.size() > before)
            continue;
        if (const auto saved = store.save(change, record); !saved)
            append(refusals, saved.refusals());
    }
}

void check_markets(const exchange::PlantDescription& plant, const std::vector<Market>& markets,
                   Refusals& refusals) {
    std::string keys;
    for (const auto& m : markets)
        keys += (keys.empty() ? "" : ", ") + m.key;
    for (const auto& baked : plant.products) {
        const bool known = std::any_of(markets.begin(), markets.end(),
                                       [&](const Market& m) { return m.key == baked.product.market; });
        if (!known) {
            refusals.push_back({"products " + baked.product.name,
                                fmt::format("its market \"{}\" is not known", baked.product.market),
                                "Choose one of: " + keys});
        }
    }
}

std::string in_short(const exchange::PlantDescription& plant) {
    return fmt::format("Plant described: {} flours, {} places, {} lines, {} products", plant.flours.size(),
                       plant.places.size(), plant.lines.size(), plant.products.size());
}

/// A choice of the plant, by its place in the file.
struct Chosen {
    std::string place, key, value;
};

std::vector<Chosen> choices_in(const exchange::PlantDescription& plant, Refusals& refusals) {
    std::vector<Chosen> chosen;
    if (!plant.door_checks.empty())
        chosen.push_back(
            {"door_checks", "door_checks", fmt::format("{}", fmt::join(plant.door_checks, "\n"))});
    for (const auto& [property, value] : plant.test_errors)
        chosen.push_back({"test_errors." + property, test_error_key(property), value});
    for (const auto& [key, value] : plant.settings) {
        const auto place = "settings." + key;
        if (has_own_member(key))
            refusals.push_back({place, "has a member of its own in a plant file",
                                "Say it there: plant, door_checks or test_errors"});
        else
            chosen.push_back({place, key, value});
    }
    return chosen;
}

/// Those that are not as the book has them are written.
void write_choices(Change& change, const exchange::PlantDescription& plant, Refusals& refusals) {
    SettingsStore store(change.connection());
    const auto stored = store.all();
    const Choices now(stored);
    for (const auto& [place, key, typed] : choices_in(plant, refusals)) {
        const auto value = accepted_choice(key, typed);
        if (!value)
            for (const auto& refusal : value.refusals())
                refusals.push_back({place, refusal.what, refusal.remedy});
        else if (*value != now.words(key))
            store.set(change, key, *value, setting_traits(key)->unit);
    }
    if (plant.plant != now.words("plant"))
        store.set(change, "plant", plant.plant);
}

/// All of it but the markets, which are known. Refused: nothing of the change may stay.
Refusals write(Change& change, const exchange::PlantDescription& plant) {
    Refusals refusals;
    const PlantStore store(change.connection());
    save_all(change, PlantKind::mill, plant.mills, store.mills(), refusals);
    save_all(change, PlantKind::flour, plant.flours, store.flours(), refusals);
    save_all(change, PlantKind::place, plant.places, store.places(), refusals);
    save_all(change, PlantKind::line, plant.lines, store.lines(), refusals);
    const auto flours = store.flours();
    std::vector<Product> products;
    for (const auto& baked : plant.products) {
        products.push_back(baked.product);
        products.back().flour = number_of(flours, baked.flour);
        if (auto& second = products.back().second_flour)
            second->flour = number_of(flours, baked.second_flour);
        if (const auto accepted = accept_product(products.back()); !accepted)
            for (auto refusal : accepted.refusals()) {
                refusal.field = "products " + baked.product.name + ": " + refusal.field;
                refusals.push_back(std::move(refusal));
            }
    }
    if (refusals.empty()) // a flour that was refused has no number that a product could name
        save_all(change, PlantKind::product, products, store.products(), refusals);
    write_choices(change, plant, refusals);
    return refusals;
}

/// What the file retires and the book still needs, by its place in the file.
template <class Record>
void refuse_needed(const State& state, PlantKind kind, const std::vector<Record>& described,
                   const std::vector<Record>& known, const std::set<std::string>& products,
                   Refusals& refusals) {
    for (const auto& record : described) {
        const auto at = std::find_if(known.begin(), known.end(),
                                     [&](const Record& one) { return one.name == record.name; });
        if (!record.is_retired || at == known.end() || at->is_retired)
            continue;
        for (const auto& refusal : why_needed(state, {kind, at->id.number()}, products))
            refusals.push_back(
                {fmt::format("{} {}: retired", key_of(kind), record.name), refusal.what, refusal.remedy});
    }
}

Refusals why_not_retired(const State& state, const exchange::PlantDescription& plant) {
    Refusals refusals;
    std::vector<Product> products;
    std::set<std::string> retired;
    for (const auto& baked : plant.products) {
        products.push_back(baked.product);
        if (baked.product.is_retired)
            retired.insert(baked.product.name);
    }
    const Book& book = state.book;
    refuse_needed(state, PlantKind::mill, plant.mills, book.mills, retired, refusals);
    refuse_needed(state, PlantKind::flour, plant.flours, book.flours, retired, refusals);
    refuse_needed(state, PlantKind::place, plant.places, book.places, retired, refusals);
    refuse_needed(state, PlantKind::line, plant.lines, book.lines, retired, refusals);
    refuse_needed(state, PlantKind::product, products, book.products, retired, refusals);
    return refusals;
}

/// By the products that are not as they were.
std::string touched_by(const State& state, const std::vector<Product>& products) {
    Ruled then = Ruled::by(state.book);
    then.products = products;
    return touched_in_words(runs_touched(state, then, [&](const Product& now) {
        return std::find(products.begin(), products.end(), now) == products.end();
    }));
}

std::string named(const LimitRow& row) {
    return fmt::format("{}, {}, {}", name_of(row.substance), row.market, lower_case(name_of(row.food)));
}
std::string named(const PropionateRow& row) {
    return fmt::format("Propionate, {}, {}", row.market, row.bread);
}

/// What became of the shipped limits, for the journal.
struct Seeded {
    int added = 0, corrected = 0, left = 0;
    std::string lines;

    template <class Row> void take(const LimitUpdate<Row>& done) {
        added += static_cast<int>(done.added.size());
        corrected += static_cast<int>(done.corrected.size());
        left += static_cast<int>(done.left.size());
        for (const auto& row : done.corrected)
            lines += fmt::format("corrected: {}: {}, {} ({}, {})\n", named(row), figure_in_words(row),
                                 row.is_confirmed ? "read" : "not confirmed", row.source, row.source_date);
        for (const auto& row : done.left)
            lines += fmt::format("left as this plant has it: {}: {}\n", named(row), figure_in_words(row));
    }
    [[nodiscard]] std::string words() const {
        if (corrected == 0)
            return fmt::format("{} limits as shipped put into the book", added);
        return fmt::format(
            "Limits as they are shipped now: {} corrected, {} new{}", corrected, added,
            left == 0 ? "" : fmt::format("; {} that this plant confirmed or changed stay as they are", left));
    }
};

} // namespace

int seed_law(Connection& connection, const Clock& clock) {
    LimitStore limits(connection);
    PropionateStore propionates(connection);
    const auto& of_oxidants = dough::shipped_limits();
    const auto& of_propionates = dough::shipped_propionate_limits();
    const auto& oxidants_corrected = dough::limit_corrections();
    const auto& propionates_corrected = dough::propionate_corrections();
    if (limits.markets().size() >= dough::markets().size() &&
        update_of(limits.rows(), of_oxidants, oxidants_corrected).is_empty() &&
        update_of(propionates.rows(), of_propionates, propionates_corrected).is_empty())
        return 0;
    Change change(connection, {0, clock.now(), "mellowbin", "seed_law", "law", "", ""});
    Seeded seeded;
    seeded.take(limits.seed(change, dough::markets(), of_oxidants, oxidants_corrected));
    seeded.take(propionates.seed(change, of_propionates, propionates_corrected));
    change.journal_line().words = seeded.words();
    change.journal_line().detail = seeded.lines;
    change.commit();
    return seeded.added + seeded.corrected;
}

Result<Done> set_up_plant(Connection& connection, const exchange::PlantDescription& plant,
                          const std::string& who, const Clock& clock) {
    Refusals refusals;
    check_markets(plant, LimitStore(connection).markets(), refusals);
    if (!refusals.empty())
        return refusals;
    Change change(connection, {0, clock.now(), who, "set_up_plant", "plant", in_short(plant), ""});
    if (refusals = write(change, plant); !refusals.empty())
        return change.refuse(refusals);
    change.commit();
    return Done{};
}

Result<Told> carry_out(State& state, const SetUpPlant& intent) {
    Refusals refusals;
    check_markets(intent.plant, state.book.markets, refusals);
    append(refusals, why_not_retired(state, intent.plant));
    if (!refusals.empty())
        return refusals;
    Change change = state.change("set_up_plant", "plant", in_short(intent.plant));
    if (refusals = write(change, intent.plant); !refusals.empty())
        return change.refuse(refusals);
    auto& words = change.journal_line().words;
    words += touched_by(state, PlantStore(change.connection()).products());
    Told told{words};
    change.commit();
    return told;
}

} // namespace mellowbin::app
