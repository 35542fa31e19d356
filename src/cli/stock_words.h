#pragma once

#include "app/models/silos.h"
#include "app/models/stock.h"

#include <iosfwd>
#include <span>
#include <string>

/// Stock and silos, for a person and as JSON.
namespace mellowbin::cli {

void print_stock(std::ostream& out, const app::StockModel& stock);
std::string stock_as_json(const app::StockModel& stock);
void print_silos(std::ostream& out, std::span<const app::SiloRow> silos);
std::string silos_as_json(std::span<const app::SiloRow> silos);

} // namespace mellowbin::cli
