#pragma once

#include "core/batch.h"
#include "core/ingredient.h"
#include "core/lot.h"
#include "db/connection.h"

#include <optional>
#include <vector>

namespace mellowbin {

/// What of a batch the beliefs on doughs rest on, as the book has it now.
struct TaughtBatch {
    struct Part {
        LotId lot;
        Grams mass;
        std::optional<Moisture> moisture; ///< by the lot's certificate
        friend bool operator==(const Part&, const Part&) = default;
    };
    BatchId id;
    ProductId product;
    LineId line;
    Day day; ///< of its run
    std::vector<Part> flour;
    Kilograms water; ///< without ice and stock solution
    Kilograms ice;
    double poured_ml = 0;
    std::optional<Celsius> water_temperature, flour_temperature, room_temperature;
    std::optional<Absorption14> farinograph, absorption;
    std::optional<Celsius> dough_temperature;
    std::optional<Feel> feel;
    bool is_countered = false;
    Beside beside;              ///< what went in beside flour and water, as said by then
    Celsius ice_temperature{0}; ///< as said by then

    friend bool operator==(const TaughtBatch&, const TaughtBatch&) = default;
};

/// What the plant said that a product takes: it holds for the batches after that one, until it says anew.
struct ExpectedOffset {
    ProductId product;
    BatchId after; ///< not known: from the first on
    AbsorptionPoints offset;
    bool is_assumed = true;
    friend bool operator==(const ExpectedOffset&, const ExpectedOffset&) = default;
};

/// The newest numbers of the rows by which batches come and change; 0: none yet.
struct BatchRows {
    std::int64_t batch = 0;
    std::int64_t result = 0;
    friend bool operator==(const BatchRows&, const BatchRows&) = default;
};

/// A lot as the book has it now, by its doughs.
struct LotInDoughs {
    LotState state{};
    BatchId last_batch; ///< that it was in, countered or not; not known: none
    std::optional<Instant> last_at;
};

/// Batches as what they teach, a page at a time: nothing here grows with the years in memory.
class TaughtStore {
public:
    explicit TaughtStore(Connection& connection) : connection_(connection) {}

    /// So many batches (above 0) after this one at most, in the order they were logged, countered ones too.
    [[nodiscard]] std::vector<TaughtBatch> after(BatchId batch, int most) const;
    [[nodiscard]] BatchRows newest() const;
    /// The first of the batches that were countered, or of which something was said, by rows after those.
    [[nodiscard]] std::optional<BatchId> first_changed_since(const BatchRows& rows) const;
    /// When the newest batch was mixed; nothing without any.
    [[nodiscard]] std::optional<Instant> newest_at() const;
    /// In the order they were said.
    [[nodiscard]] std::vector<ExpectedOffset> expected() const;
    /// The last batch up to that one, it included, by which the lot taught something of water: not countered,
    /// with both absorptions.
    [[nodiscard]] std::optional<BatchId> last_that_taught(LotId lot, BatchId up_to) const;
    /// Nothing where the book has no such lot.
    [[nodiscard]] std::optional<LotInDoughs> lot(LotId lot) const;

private:
    Connection& connection_;
};

struct Line;
struct Product;
class Change;

/// Appends what is said of the product's dough, where it differs from what was said before. Of PlantStore.
void write_expected(Change& change, ProductId id, const Product& product);
/// The same of the line's ice.
void write_expected(Change& change, LineId id, const Line& line);

} // namespace mellowbin
