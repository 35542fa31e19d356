#pragma once

#include "core/delivery.h"
#include "db/delivery_store.h"

#include <optional>
#include <string>
#include <vector>

/// Deliveries as they came.
namespace mellowbin::app {

struct DeliveredLot {
    LotId id;
    std::string code, flour;
    double kg = 0; ///< as it came
};

struct DeliveredPallet {
    std::string sscc, lot;
    std::optional<double> kg;
};

/// One delivery, with what was expected of it.
struct DeliveryRow {
    DeliveryId id;
    std::string mill, note, order;
    Day delivered_on;
    std::string expected; ///< code of the expected delivery it answers; empty: none
    std::optional<Day> expected_on;
    std::optional<double> expected_kg, on_note_kg, weighed_kg;
    double lots_kg = 0;
    std::vector<DeliveredLot> lots;
    std::vector<DeliveredPallet> pallets;
    std::string weight_reason, remark, who;
    Instant at;           ///< UTC
    std::string at_words; ///< by the plant's clock
};

struct Station;

/// Without its lots and pallets.
DeliveryRow make_delivery_head(const Station& station, const DeliveryRecord& record);
DeliveryRow make_delivery(const Station& station, const DeliveryRecord& record);
/// Those of the mill of this name, of all mills where it is empty, the newest first; none of a mill that is
/// not known.
std::vector<DeliveryRow> make_deliveries(const Station& station, const std::string& mill, int count);
/// "Came on Tue 24 Nov with note 4711 of Harrow Mill, order PO-17, for E-3 (1 day late)"
std::string came_in_words(const DeliveryRow& delivery);

} // namespace mellowbin::app
