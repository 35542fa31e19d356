#pragma once

#include "app/book/station.h"

#include <functional>
#include <string>
#include <vector>

namespace mellowbin::app {

/// What runs are ruled by: the law as the plant holds it, and what its products are and take.
struct Ruled {
    std::vector<LimitRow> limits;
    std::vector<PropionateRow> propionates;
    std::vector<Product> products;

    static Ruled by(const Book& book) { return {book.limits, book.propionates, book.products}; }
};

using IsConcerned = std::function<bool(const Product&)>;
/// Products of the market, and of those that lie in it.
IsConcerned sold_in(const Book& book, const std::string& market);

/// The live runs (of today and later, not all mixed) whose cards would be ruled otherwise: a lot forbidden or
/// not, another dose of the oxidant, the preservative withheld or not, or another dose of it. Only runs of
/// products that it concerns are looked at; in order of their days.
std::vector<const Run*> runs_touched(const Station& station, const Ruled& then,
                                     const IsConcerned& is_concerned);

/// "R261201-1-1, R261202-1-1, and 4 more": not so many that nobody reads them.
std::string named(const std::vector<std::string>& codes);
/// "; touches 3 runs: R261201-1-1, …"; empty where it touches none.
std::string touched_in_words(const std::vector<const Run*>& runs);

} // namespace mellowbin::app
