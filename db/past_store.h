#pragma once

#include "core/lot.h"
#include "db/connection.h"

#include <cstdint>
#include <string>
#include <vector>

namespace mellowbin {

/// By what lots of the past are sorted; with equal ones by when they were taken in.
enum class PastOrder { ended, code, mill, flour, delivered, received };

/// Which lots of the past are asked for, a page at a time.
struct PastLotQuery {
    std::string words; ///< within the lot's number or its mill's name, whatever their capitals; empty: all
    PastOrder order = PastOrder::ended;
    bool is_descending = true;
    int from = 0; ///< passed over
    int count = 50;
    friend bool operator==(const PastLotQuery&, const PastLotQuery&) = default;
};

/// A lot that was used up or rejected.
struct PastLot {
    LotId id;
    std::string code, mill, flour;
    LotState state{};
    std::string state_reason;
    Day delivered_on;
    Grams received;
    Instant ended_at;
    bool went_back = false; ///< to the mill, the last of it
    friend bool operator==(const PastLot&, const PastLot&) = default;
};

struct PastLots {
    std::vector<PastLot> lots;
    std::int64_t all = 0; ///< that the words fit, on all pages
};

/// What long was: sorted, filtered and counted by the engine.
class PastStore {
public:
    explicit PastStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] PastLots lots(const PastLotQuery& query) const;
    /// Whether the last of a rejected lot went back to the mill; of any lot.
    [[nodiscard]] bool went_back(LotId lot) const;

private:
    Connection& connection_;
};

} // namespace mellowbin
