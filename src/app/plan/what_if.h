#pragma once

#include "app/book/book.h"
#include "core/result.h"

#include <string>
#include <variant>
#include <vector>

namespace mellowbin::app {

struct SupposeRunMoved {
    RunId run;
    std::string line, day, sequence; ///< as typed: name, ISO day, place from 1; empty: as it is
};
struct SupposeOrder {
    std::string flour, kg, arrives;
};
struct SupposeNoOxidant {
    std::string market; ///< key
};
struct SupposeLotHeld {
    LotId lot;
};

using WhatIf = std::variant<SupposeRunMoved, SupposeOrder, SupposeNoOxidant, SupposeLotHeld>;

/// Something that is tried without the book: what, and in words.
struct Supposition {
    WhatIf what;
    std::string words; ///< "Run R261127-1-2 moved to Mon 30 Nov, Line 1"
};

/// The supposition in words, or every reason why it cannot be supposed of this book: it names nothing that is
/// there, a day before today, a run that is past, frozen or being mixed.
Result<Supposition> accept(const Book& book, const WhatIf& what, Day today);

/// Does to a copy of the book what is supposed; it must have been accepted of that book.
void suppose(Book& copy, const WhatIf& what);

/// The run that is moved, where one is.
std::vector<RunId> moved_runs(const std::vector<Supposition>& suppositions);

} // namespace mellowbin::app
