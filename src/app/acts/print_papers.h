#pragma once

#include "app/acts/act.h"
#include "core/drill.h"
#include "core/id.h"

#include <string>

/// Papers of the book. None of these changes it.
namespace mellowbin::app {

/// Where a paper goes, as typed. With neither a file nor a printer it is written beside the book.
struct PaperTo {
    std::string file;    ///< PDF
    std::string paper;   ///< "a4", "letter", a label's "105x148"; empty: what is usual for it
    std::string printer; ///< a queue of the system's
};

/// What a label says that the book does not know.
struct FlourSaid {
    std::string gtin; ///< of the flour as its mill sells it; empty: not known
    std::string bags; ///< on the pallet; the GTIN is the bag's then; empty: none said
    std::string kg;   ///< empty: as the book has it of the pallet, the bag
};

/// Labels for the lot's pallets, one each; for one of them where its number is given. A lot that came
/// without pallets' numbers gets one label without.
struct PrintPalletLabels {
    LotId lot;
    std::string sscc = {};
    FlourSaid said = {};
    PaperTo to = {};
};
struct PrintBagLabel {
    LotId lot;
    FlourSaid said = {};
    PaperTo to = {};
};
struct PrintCard {
    RunId run;
    PaperTo to = {};
};
/// What lies where by the book, with a column for what was counted.
struct PrintStockToCount {
    PaperTo to = {};
};
struct PrintDelivery {
    DeliveryId delivery;
    PaperTo to = {};
};
struct PrintTestBakes {
    LotId lot;
    PaperTo to = {};
};

/// The trace that is shown: its lines, mass balance and persons.
struct PrintTrace {
    PaperTo to = {};
};
/// The report that was kept with a drill that has ended.
struct PrintDrill {
    DrillId drill;
    PaperTo to = {};
};

Result<Told> carry_out(State& state, const PrintTrace& act);
Result<Told> carry_out(State& state, const PrintDrill& act);
Result<Told> carry_out(State& state, const PrintPalletLabels& act);
Result<Told> carry_out(State& state, const PrintBagLabel& act);
Result<Told> carry_out(State& state, const PrintCard& act);
Result<Told> carry_out(State& state, const PrintStockToCount& act);
Result<Told> carry_out(State& state, const PrintDelivery& act);
Result<Told> carry_out(State& state, const PrintTestBakes& act);

} // namespace mellowbin::app
