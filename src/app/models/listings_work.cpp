// Lists of what is baked: runs with their flour, batches as they were mixed.
#include "app/book/station.h"
#include "app/models/listing_makers.h"
#include "core/decimal.h"
#include "db/batch_store.h"
#include "db/run_store.h"
#include "db/supply_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string name_of_product(const Book& book, ProductId id) {
    const Product* product = book.product(id);
    return product ? product->name : "?";
}

std::string name_of_line(const Book& book, LineId id) {
    const Line* line = book.line(id);
    return line ? line->name : "?";
}

std::vector<Listing::Cell> head_of_run(const Station& s, const Run& run, int mixed) {
    return {run.day,
            name_of_line(s.book, run.line),
            static_cast<double>(run.sequence),
            run.code,
            name_of_product(s.book, run.product),
            static_cast<double>(run.batches),
            static_cast<double>(mixed),
            kilograms(run.flour)};
}

/// A line a lot or delivery to come; one without either where the run has no flour yet.
void list_run(const Station& s, const Run& run, LotNamesAtHand& names, Listing& list) {
    const RunStore runs(*s.connection);
    const auto batches = BatchStore(*s.connection).of(run.id);
    const auto mixed =
        std::count_if(batches.begin(), batches.end(), [](const Batch& batch) { return !batch.is_countered; });
    const auto head = head_of_run(s, run, static_cast<int>(mixed));
    const auto before = list.rows.size();
    const auto add = [&](std::vector<Listing::Cell> flour) {
        auto& row = list.rows.emplace_back(head);
        row.insert(row.end(), flour.begin(), flour.end());
    };
    for (const auto& planned : runs.assignments_of(run.id))
        add({names[planned.lot].code, names[planned.lot].mill, kilograms(planned.mass),
             std::string(planned.is_locked ? "yes" : "no"), cell(planned.reason)});
    for (const auto& promised : runs.promises_of(run.id)) {
        const auto delivery = SupplyStore(*s.connection).find(promised.delivery);
        const Mill* mill = delivery ? s.book.mill(delivery->mill) : nullptr;
        add({delivery ? delivery->code : "?", mill ? mill->name : "?", kilograms(promised.mass),
             std::string("no"), cell(promised.reason)});
    }
    if (list.rows.size() == before)
        add({{}, {}, {}, {}, {}});
}

std::string flour_in_words(const Batch& batch, LotNamesAtHand& names) {
    std::string words;
    for (const auto& part : batch.flour)
        words += fmt::format("{}{} {} kg", words.empty() ? "" : "; ", names[part.lot].code,
                             fixed(to_kilograms(part.mass).value(), 3));
    return words;
}

Grams mass_of(const Batch& batch) {
    Grams mass;
    for (const auto& part : batch.flour)
        mass += part.mass;
    return mass;
}

std::vector<Listing::Cell> cells_of(const Station& s, const Run& run, const Batch& batch,
                                    LotNamesAtHand& names) {
    const auto& result = batch.result;
    const bool is_dosed = batch.oxidant.has_value();
    return {batch.at,
            run.day,
            run.code,
            static_cast<double>(batch.number),
            name_of_product(s.book, run.product),
            name_of_line(s.book, run.line),
            kilograms(mass_of(batch)),
            flour_in_words(batch, names),
            batch.water.value(),
            batch.ice.value(),
            batch.water_temperature ? Listing::Cell(batch.water_temperature->value()) : Listing::Cell(),
            is_dosed ? Listing::Cell(std::string(name_of(*batch.oxidant))) : Listing::Cell(),
            is_dosed ? Listing::Cell(batch.dose.value()) : Listing::Cell(),
            batch.poured_ml > 0 ? Listing::Cell(batch.poured_ml) : Listing::Cell(),
            result.dough_temperature ? Listing::Cell(result.dough_temperature->value()) : Listing::Cell(),
            cell(result.ph),
            result.feel ? Listing::Cell(std::string(name_of(*result.feel))) : Listing::Cell(),
            cell(result.mixing_minutes),
            result.fermentation_minutes ? Listing::Cell(static_cast<double>(*result.fermentation_minutes))
                                        : Listing::Cell(),
            batch.who,
            cell(batch.checked_by),
            cell(batch.answer),
            cell(result.note),
            std::string(batch.is_countered ? "yes" : "no")};
}

} // namespace

Listing list_runs(const Station& s, const ListingQuery& query) {
    Listing list;
    list.notes = {"A line a lot or expected delivery that the plan in the book has for the run"};
    list.columns = {day_column("Day"),
                    text_column("Line"),
                    number_column("In turn", "", 0),
                    text_column("Run"),
                    text_column("Product"),
                    number_column("Batches", "", 0),
                    number_column("Batches mixed", "", 0),
                    kg_column("Flour needed", 3),
                    text_column("Lot or delivery"),
                    text_column("Mill"),
                    kg_column("Planned", 3),
                    text_column("Locked"),
                    text_column("Reason")};
    LotNamesAtHand names(*s.connection);
    for (const auto& run : RunStore(*s.connection).between(query.from, query.until))
        list_run(s, run, names, list);
    return list;
}

Listing list_batches(const Station& s, const ListingQuery& query) {
    Listing list;
    list.notes = {"As logged; a batch that was taken back stands here, too"};
    list.columns = {instant_column("At"),
                    day_column("Run's day"),
                    text_column("Run"),
                    number_column("Batch", "", 0),
                    text_column("Product"),
                    text_column("Line"),
                    kg_column("Flour", 3),
                    text_column("Lots"),
                    kg_column("Water", 3),
                    kg_column("Ice", 3),
                    number_column("Water temperature", "°C", 1),
                    text_column("Oxidant"),
                    number_column("Dose", "mg/kg flour", 2),
                    number_column("Poured", "mL", 1),
                    number_column("Dough temperature", "°C", 1),
                    number_column("pH", "", 2),
                    text_column("Feel"),
                    number_column("Mixing", "min", 1),
                    number_column("Fermentation", "min", 0),
                    text_column("Who"),
                    text_column("Checked by"),
                    text_column("Answer"),
                    text_column("Note"),
                    text_column("Taken back")};
    LotNamesAtHand names(*s.connection);
    for (const auto& run : RunStore(*s.connection).between(query.from, query.until))
        for (const auto& batch : BatchStore(*s.connection).of(run.id))
            list.rows.push_back(cells_of(s, run, batch, names));
    return list;
}

} // namespace mellowbin::app
