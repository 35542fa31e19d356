#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/quantity.h"
#include "core/result.h"

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin {

using ReworkId = Id<struct ReworkRecord>;

/// What was put back.
enum class ReworkKind { dough, flour };
std::string_view key_of(ReworkKind kind);
std::optional<ReworkKind> rework_kind_from_key(std::string_view key);

/// Dough, or flour swept up at the bowl, of one batch that went into a later one. Only an earlier batch can
/// be put back, so nothing goes round. Countered by a second row, never edited.
struct Rework {
    ReworkId id;
    BatchId from, into; ///< the earlier and the later batch
    ReworkKind kind{};
    Grams mass; ///< above 0
    std::string note;
    Instant at;
    std::string who;
    bool is_countered = false;
    friend bool operator==(const Rework&, const Rework&) = default;
};

/// Rework as typed; its batches are said by run and number.
struct ReworkDraft {
    std::string from_run, from_batch;
    std::string into_run, into_batch;
    std::string kind; ///< "dough" or "flour"; empty: dough
    std::string kg;
    std::string note;
    friend bool operator==(const ReworkDraft&, const ReworkDraft&) = default;
};

/// Reads kind and weight; refused where they are none, or the weight is not from 0.001 to 10,000 kg. It has
/// no batches, number, person or instant yet.
Result<Rework> accept(const ReworkDraft& draft);

/// What stands against it beside the book: the batch that is put back must be the earlier one, and no more
/// can be put back than `made` of it less what was put back before.
Refusals what_stands_against(const Rework& rework, Grams made, Grams put_back_before);

} // namespace mellowbin
