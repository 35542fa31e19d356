#pragma once

#include "app/models/mill_record.h"

#include <iosfwd>
#include <string>

namespace mellowbin::cli {

void print_mill_record(std::ostream& out, const app::MillRecordModel& record);
std::string mill_record_as_json(const app::MillRecordModel& record);

} // namespace mellowbin::cli
