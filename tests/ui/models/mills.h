#pragma once

#include "app/models/mill_record.h"

/// What is known of a mill, as the application would tell it.
namespace mellowbin::test {

/// Harrow Mill over a year: two flours, one with lots that were out; a complaint open and one answered, flour
/// that went back, a delivery overdue; the second of two pages of lots.
app::MillRecordModel a_mill_record();

} // namespace mellowbin::test
