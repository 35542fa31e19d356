#pragma once

#include <compare>
#include <cstdint>

namespace mellowbin {

/// The book's number of a record; a lot's number cannot stand where a run's belongs. 0 is "not yet in the
/// book".
template <class Tag> class Id {
public:
    constexpr Id() = default;
    explicit constexpr Id(std::int64_t number) : number_(number) {}
    [[nodiscard]] constexpr std::int64_t number() const { return number_; }
    [[nodiscard]] constexpr bool is_known() const { return number_ != 0; }
    friend constexpr auto operator<=>(Id, Id) = default;

private:
    std::int64_t number_ = 0;
};

using MillId = Id<struct MillRecord>;
using FlourId = Id<struct FlourRecord>;
using PlaceId = Id<struct PlaceRecord>;
using LotId = Id<struct LotRecord>;
using MovementId = Id<struct MovementRecord>;
using ProductId = Id<struct ProductRecord>;
using LineId = Id<struct LineRecord>;
using RunId = Id<struct RunRecord>;
using RetestId = Id<struct RetestRecord>;
using ClimateLogId = Id<struct ClimateLogRecord>;
using ExpectedId = Id<struct ExpectedDeliveryRecord>;
using DeliveryId = Id<struct DeliveryThatCame>;
using BegunId = Id<struct BegunDeliveryRecord>;
using ReservationId = Id<struct ReservationRecord>;
using LearningId = Id<struct LearningRecord>;
using BatchId = Id<struct BatchRecord>;
using BagScanId = Id<struct BagScanRecord>;
using SolutionId = Id<struct StockSolutionRecord>;
using BakeId = Id<struct BakeRecord>;
using KeepingId = Id<struct KeepingRecordRecord>;
using ComplaintId = Id<struct ComplaintRecord>;
using CertificateSourceId = Id<struct CertificateSourceRecord>;

} // namespace mellowbin
