#pragma once

#include "core/plant.h"
#include "core/plant_field.h"
#include "db/change.h"

#include <string_view>
#include <vector>

namespace mellowbin {

RecordRef record_of(PlantRef record);

/// Records of a kind that name a record of the plant.
struct PlantUse {
    std::string_view what; ///< "lots", "runs"
    int count = 0;
};

/// The plant itself: where flour comes from, lies, and goes. Lists are in the order the records were added.
/// save() adds a record without a number and overwrites one that has it; a name that another record of the
/// same kind bears, in whatever letters, is refused. What a product's dough takes and how cold a line's ice
/// is hold from the newest batch on (expected_offset, expected_ice).
class PlantStore {
public:
    explicit PlantStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<Mill> mills() const;
    [[nodiscard]] std::vector<Flour> flours() const;
    [[nodiscard]] std::vector<Place> places() const;
    [[nodiscard]] std::vector<Product> products() const;
    [[nodiscard]] std::vector<Line> lines() const;

    Result<MillId> save(Change& change, const Mill& mill);
    Result<FlourId> save(Change& change, const Flour& flour);
    Result<PlaceId> save(Change& change, const Place& place);
    Result<ProductId> save(Change& change, const Product& product);
    Result<LineId> save(Change& change, const Line& line);

    /// What ever named the record, of all years.
    [[nodiscard]] std::vector<PlantUse> uses(PlantRef record) const;
    /// Takes a record off that nothing ever named; refused for another, and where there is none.
    Result<Done> remove(Change& change, PlantRef record);

private:
    Connection& connection_;
};

} // namespace mellowbin
