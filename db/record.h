#pragma once

#include "core/id.h"

#include <compare>
#include <cstdint>
#include <optional>
#include <string_view>

namespace mellowbin {

/// The kinds of record that a line of the journal can be about.
enum class RecordKind {
    mill,
    flour,
    place,
    line,
    product,
    lot,
    retest,
    climate_log,
    learning,
    run,
    delivery,
    reservation,
    batch,
    solution,
    bake,
    keeping,
    limit,
    setting,
    propionate_limit,
    test_precision,
    complaint,
    delivery_record, ///< one that came; `delivery` is one that is to come
    begun_delivery,
};
std::string_view key_of(RecordKind kind);
std::optional<RecordKind> record_kind_from_key(std::string_view key);

/// A record of the book, by kind and number.
struct RecordRef {
    RecordKind kind{};
    std::int64_t number = 0;

    friend auto operator<=>(const RecordRef&, const RecordRef&) = default;
};

constexpr RecordRef record_of(MillId id) { return {RecordKind::mill, id.number()}; }
constexpr RecordRef record_of(FlourId id) { return {RecordKind::flour, id.number()}; }
constexpr RecordRef record_of(PlaceId id) { return {RecordKind::place, id.number()}; }
constexpr RecordRef record_of(LineId id) { return {RecordKind::line, id.number()}; }
constexpr RecordRef record_of(ProductId id) { return {RecordKind::product, id.number()}; }
constexpr RecordRef record_of(LotId id) { return {RecordKind::lot, id.number()}; }
constexpr RecordRef record_of(RetestId id) { return {RecordKind::retest, id.number()}; }
constexpr RecordRef record_of(ClimateLogId id) { return {RecordKind::climate_log, id.number()}; }
constexpr RecordRef record_of(LearningId id) { return {RecordKind::learning, id.number()}; }
constexpr RecordRef record_of(RunId id) { return {RecordKind::run, id.number()}; }
constexpr RecordRef record_of(ExpectedId id) { return {RecordKind::delivery, id.number()}; }
constexpr RecordRef record_of(DeliveryId id) { return {RecordKind::delivery_record, id.number()}; }
constexpr RecordRef record_of(BegunId id) { return {RecordKind::begun_delivery, id.number()}; }
constexpr RecordRef record_of(ReservationId id) { return {RecordKind::reservation, id.number()}; }
constexpr RecordRef record_of(BatchId id) { return {RecordKind::batch, id.number()}; }
constexpr RecordRef record_of(SolutionId id) { return {RecordKind::solution, id.number()}; }
constexpr RecordRef record_of(BakeId id) { return {RecordKind::bake, id.number()}; }
constexpr RecordRef record_of(KeepingId id) { return {RecordKind::keeping, id.number()}; }
constexpr RecordRef record_of(ComplaintId id) { return {RecordKind::complaint, id.number()}; }

} // namespace mellowbin
