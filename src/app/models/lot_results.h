#pragma once

#include "core/lot.h"
#include "core/retest.h"

#include <string>
#include <vector>

namespace mellowbin::app {

struct Book;

/// The retests of the lot that stand, the newest first.
std::vector<const Retest*> standing_retests(const Book& book, LotId lot);
/// What of the lot fails its flour's specification by the newest figure of each property, the plant's own
/// before the mill's: "Protein 11.2 %, below 11.5 to 13.0 %". Empty: nothing that was measured.
std::vector<std::string> failing_results(const Book& book, const Lot& lot);
/// All of them as one text, as a concession begins.
std::string failing_as_text(const std::vector<std::string>& failing);

} // namespace mellowbin::app
