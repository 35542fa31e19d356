#pragma once

#include "core/limit.h"

#include <span>
#include <vector>

/// How a book that already holds limits is told what was corrected in those the program comes with.
namespace mellowbin {

/// A row that was shipped once, and what is shipped in its place.
template <class Row> struct Correction { Row was, now; };

/// What is to be written of the shipped rows into a book.
template <class Row> struct LimitUpdate {
    std::vector<Row> added; ///< of no number: the book has none of them
    std::vector<Row>
        corrected;         ///< under the book's numbers: it holds them as they were shipped once, untouched
    std::vector<Row> left; ///< as the book has them: corrected since, but the plant confirmed or changed them
    [[nodiscard]] bool is_empty() const { return added.empty() && corrected.empty(); }
};

/// A row of oxidants is known by its market, substance, food, first day, group and rule; one of propionates
/// by its market and bread: what of a row the plant may correct is not among them. A row of the book is
/// corrected only where it is a shipped one of old to the last word; what the plant confirmed, doubted or
/// changed stays its own, and the shipped row is not added beside it.
LimitUpdate<LimitRow> update_of(std::span<const LimitRow> held, std::span<const LimitRow> shipped,
                                std::span<const Correction<LimitRow>> corrections);
LimitUpdate<PropionateRow> update_of(std::span<const PropionateRow> held,
                                     std::span<const PropionateRow> shipped,
                                     std::span<const Correction<PropionateRow>> corrections);

} // namespace mellowbin
