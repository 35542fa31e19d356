#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/plant.h"
#include "core/result.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

struct Lot;

/// Quality's word that a lot goes into dough although something of it is not as it should be: what is let
/// pass, who lets it, until when and for what.
struct Concession {
    std::string deviation;           ///< "Protein 11.2 %, below 11.5 to 13.0 %"; never empty
    std::string by;                  ///< who concedes it
    Day until;                       ///< the last day
    std::vector<ProductId> products; ///< the only ones it goes into, by their numbers; none: all
    friend bool operator==(const Concession&, const Concession&) = default;
};

/// A concession as typed.
struct ConcessionDraft {
    std::string deviation;
    std::string by; ///< empty: who types it
    std::string until;
    std::vector<std::string> products; ///< names
    bool for_all = false;              ///< for every product, those to come, too
    friend bool operator==(const ConcessionDraft&, const ConcessionDraft&) = default;
};

/// What a draft is checked against.
struct ConcessionContext {
    Day today;
    std::span<const Product> products;
    std::string_view person; ///< who concedes where nobody else is said
};

/// Reads the draft and gives every reason at once when it cannot hold: nothing is conceded, no last day or
/// one that is over, no product chosen or one that is not known. It is never for all products unless that is
/// said.
Result<Concession> accept(const ConcessionDraft& draft, const ConcessionContext& context);
/// As a form begins that changes it.
ConcessionDraft draft_of(const Concession& concession, std::span<const Product> products);

/// A released lot whose concession is over on the day: for use it stands as on hold, until quality judges it
/// anew.
bool stands_on_hold(const Lot& lot, Day day);
/// Why the lot's concession keeps it out of the product on the day, in words that begin with "its
/// concession"; empty: it does not, or there is none.
std::string against_by_concession(const Lot& lot, const Product& product, Day day);

/// "Pan bread, Bun", or "all products".
std::string products_in_words(const Concession& concession, std::span<const Product> products);
/// "until 2026-11-27 for Pan bread: protein 11.2 %, …"
std::string in_words(const Concession& concession, std::span<const Product> products);
/// What a state is called on a day because of the lot's concession: "concession until 27 Nov", "concession
/// ended 27 Nov"; empty: it is called as it is.
std::string standing_by_concession(const Lot& lot, Day today);

} // namespace mellowbin
