#pragma once

#include "core/lot.h"
#include "core/retest.h"
#include "core/specification.h"
#include "db/mill_store.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

/// A mill's lots of some days against the specification.
namespace mellowbin::app {

/// All that is asked of the book for them.
struct MillLots {
    std::vector<Lot> lots; ///< in the order of their delivery; none that was taken in by mistake
    std::map<LotId, std::vector<Retest>> tests; ///< that stand, in the order of the days they were taken
    std::map<LotId, ExpectedLot> expected;
    std::map<LotId, LotFate> fates;
};

/// How many lots lie outside in one property.
struct MillOutside {
    Property property{};
    int lots = 0;    ///< that say a figure which can be compared
    int outside = 0; ///< of these
};

/// Lots by what one side says of them.
struct MillSide {
    int inside = 0, outside = 0;
    int unknown = 0;                   ///< nothing that the specification asks for, or none that compares
    std::vector<MillOutside> outsides; ///< by property, in the order of the specification
};

struct MillFlour {
    FlourId flour;
    std::string name;
    int lots = 0;
    double kg = 0;
    MillSide certificate, own;
    std::string testing; ///< how its next lots are tested: "tightened since W24-120: …"; empty: by no rule
};

/// A property of a lot by both sides.
struct MillValue {
    std::optional<double> mill, own; ///< on 14 % moisture where it has a basis
    bool is_asked = false;           ///< by the flour's specification
    bool is_mill_out = false, is_own_out = false;
};

struct MillLotRow {
    LotId id;
    std::string code, flour;
    LotState state{};
    Day delivered_on;
    double kg = 0;
    std::optional<int> days_late;  ///< below 0: early; nothing: it was not expected
    std::vector<MillValue> values; ///< by the page's properties
    bool was_held = false;
};

/// A page of the lots, the newest first.
struct MillLotsPage {
    std::vector<Property> properties; ///< that the flours of the span are specified by
    std::vector<MillLotRow> rows;
    int page = 0, pages = 0;
    int first = 0, all = 0; ///< place of the first row, from 1; lots on all pages
};

struct Book;

std::vector<MillFlour> flours_of(const MillLots& lots, const Book& book);
MillLotsPage lots_page(const MillLots& lots, const Book& book, int page);

} // namespace mellowbin::app
