#pragma once

#include "print/sheet.h"
#include "print/sheet_pages.h"

namespace mellowbin::print {

/// The width that the table would like, mm: no line of it broken.
double natural_width(const Table& table, double points, Typesetter& typesetter);
/// What it needs of a page to begin there, mm: its heads and its first row, half a page at most.
double height_to_begin(const Table& table, double points, SheetPages& pages);
/// The table from here on; `points` where it has none of its own.
void place(const Table& table, double points, SheetPages& pages);

} // namespace mellowbin::print
