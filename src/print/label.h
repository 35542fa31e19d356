#pragma once

#include "print/drawing.h"
#include "print/label_data.h"

#include <string>

/// Labels for flour: what they hold as bars, as squares and in words.
namespace mellowbin::print {

/// The pallet's number, its lot with days and weight: once as GS1 DataMatrix, once as one or several GS1-128
/// that together hold the same, each with its words beneath. What a symbol cannot hold stands in words, and
/// the label says so. Refused: numbers that are none, what the label has no room for, a text that no font can
/// show.
Result<Drawing> pallet_label(const LabelledFlour& flour, PageSize size, Instant made_at, Day today);
/// For one bag: lot, days and weight in words and as GS1 DataMatrix.
Result<Drawing> bag_label(const LabelledFlour& flour, PageSize size, Instant made_at, Day today);

} // namespace mellowbin::print
