#pragma once

#include "core/dispatch.h"
#include "db/change.h"

#include <optional>
#include <string_view>
#include <vector>

namespace mellowbin {

/// Which dispatches are asked for; what is not said does not matter.
struct DispatchQuery {
    Day from, until; ///< both included
    std::optional<ProductId> product;
    std::string customer; ///< its code, whatever its capitals
};

/// Where bread went. Appended only: a counter-entry is a second row, which these lists show as is_countered
/// of the first.
class DispatchStore {
public:
    explicit DispatchStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::optional<Dispatch> find(DispatchId id) const;
    /// In the order they were logged, countered ones too.
    [[nodiscard]] std::vector<Dispatch> of_run(RunId run) const;
    /// By day, then in the order they were logged; countered ones too.
    [[nodiscard]] std::vector<Dispatch> of(const DispatchQuery& query) const;
    /// When it was taken back; nothing where it stands.
    [[nodiscard]] std::optional<Instant> countered_at(DispatchId id) const;
    /// What the run made by its batches that stand, and what left of it.
    [[nodiscard]] Baked baked(RunId run) const;

    /// Writes the dispatch under a new number, by the person and at the instant of the change's line. Refused
    /// by what_stands_against() with what the book holds now.
    Result<DispatchId> log(Change& change, const Dispatch& dispatch);
    /// It did not leave, or not so. Refused when there is none of that number, or it was countered before.
    Result<Done> counter(Change& change, DispatchId id, std::string_view reason);

private:
    Connection& connection_;
};

} // namespace mellowbin
