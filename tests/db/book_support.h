#pragma once

#include "db/lot_store.h"
#include "db/plant_store.h"
#include "db/run_store.h"
#include "db/sqlite_connection.h"
#include "support/catch.h"
#include "support/temporary_folder.h"

#include <filesystem>
#include <functional>

namespace mellowbin {

using namespace date::literals;

using tests::TemporaryFolder;

inline const Instant noon = date::sys_days{2026_y / 11 / 25} + std::chrono::hours(12);

/// A journal line that says this.
JournalLine line(std::string words);

/// What a lot needs around it: one of each.
struct SmallPlant {
    MillId mill;
    FlourId flour;
    PlaceId bay;
    PlaceId silo;
    ProductId product;
    LineId line;
};
SmallPlant add_small_plant(Connection& connection);

/// 14 % moisture for a property that needs a basis; none for one that has none.
Basis basis_for(Property property);
/// A lot as it comes, with a certificate; the mill, flour and place of the plant.
Lot good_lot(const SmallPlant& plant, std::string code);
/// The same with its receipt.
Delivered delivered(const SmallPlant& plant, std::string code);
/// Taken in with its journal line, and on the disk when this returns.
LotId take_in(Connection& connection, const SmallPlant& plant, std::string code);
/// The same, and released: it may go into dough.
LotId take_in_released(Connection& connection, const SmallPlant& plant, std::string code);
Run good_run(const SmallPlant& plant, std::string code);
RunId add_run(Connection& connection, const Run& run);

/// What BookError the act throws; fails the test when it throws none.
BookError fault_of(const std::function<void()>& act);

std::int64_t count_of(Connection& connection, std::string_view table);
void write_file(const std::filesystem::path& path, std::string_view bytes);
std::string bytes_of(const std::filesystem::path& path);

/// Runs `act` in a process of its own; its exit code, or the negative signal that ended it. Exceptions
/// give 99. The act must not use Catch, nor a connection opened before.
int in_a_child(const std::function<int()>& act);

} // namespace mellowbin
