#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/limit.h"
#include "core/quantity.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// What the operator says of the dough's consistency at the end of mixing.
enum class Feel { stiff, right, slack };
std::string_view key_of(Feel feel);
std::string_view name_of(Feel feel);
std::optional<Feel> feel_from_key(std::string_view key);

/// What went in of one lot.
struct BatchFlour {
    LotId lot;
    Grams mass;
    friend bool operator==(const BatchFlour&, const BatchFlour&) = default;
};

/// What came of a batch, as far as somebody said. A later row of the same batch stands for the earlier one.
struct BatchResult {
    std::optional<Celsius> dough_temperature; ///< at the end of mixing
    std::optional<double> ph;                 ///< of the dough
    std::optional<Feel> feel;
    std::optional<double> mixing_minutes;
    std::optional<int> fermentation_minutes;
    std::string note;
    friend bool operator==(const BatchResult&, const BatchResult&) = default;
};

/// What came of a batch, as typed; all that is known of it, since it stands for what was said before.
struct ResultDraft {
    std::string dough_temperature;
    std::string ph;
    std::string feel; ///< key: "stiff", "right", "slack"
    std::string mixing_minutes;
    std::string fermentation_minutes;
    std::string note;
    std::string answer = {}; ///< why it is so, where it lies far from what was aimed at
};

/// A batch as it was mixed: what really went in. It is countered by a second row, never edited.
struct Batch {
    BatchId id;
    RunId run;
    int number = 1; ///< of the run
    Instant at;
    std::string who;
    std::string checked_by; ///< the second person at the oxidant's scale; empty: nobody
    std::vector<BatchFlour> flour;
    Kilograms water; ///< by the meter, without ice and stock solution
    Kilograms ice;
    std::optional<Celsius> water_temperature;
    std::optional<Substance> oxidant;
    OxidantPpm dose;                    ///< mg of the oxidant per kg of the batch's flour, of the bakery
    double poured_ml = 0;               ///< of a stock solution; 0: weighed dry, or none
    std::optional<SolutionId> solution; ///< that it was poured from
    // What the flour and the room were like, so that what is learned from the batch can be told again:
    std::optional<Absorption14> farinograph; ///< of the blend, before any learning
    std::optional<Absorption14> absorption;  ///< what all the water came to
    std::optional<Celsius> flour_temperature;
    std::optional<Celsius> room_temperature;
    std::string answer; ///< why it was mixed although something stood against it; empty: nothing did
    BatchResult result;
    bool is_countered = false;
    friend bool operator==(const Batch&, const Batch&) = default;
};

/// A bag held against a run's card.
struct BagScan {
    BagScanId id;
    RunId run;
    int batch = 1;            ///< of the run, the next one then
    std::string code;         ///< the lot number in what was scanned
    std::optional<LotId> lot; ///< of the card; nothing: a wrong bag
    Instant at;
    std::string who;
    std::string cleared_by; ///< of quality, who let a wrong bag be; empty: nobody
    friend bool operator==(const BagScan&, const BagScan&) = default;
};

/// An oxidant dissolved for a day's doughs.
struct StockSolution {
    SolutionId id;
    Substance substance{};
    double grams_per_litre = 0;
    Instant made_at;
    Instant keeps_until;
    std::string who;
    bool has_ended = false; ///< poured away
    friend bool operator==(const StockSolution&, const StockSolution&) = default;
};

} // namespace mellowbin
