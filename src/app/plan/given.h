#pragma once

#include "app/book/book.h"

#include <map>
#include <string>
#include <vector>

namespace mellowbin::app {

/// What a planned run gets, from the book or from a proposal: flour of a lot, or of a delivery to come.
struct Given {
    LotId lot;
    ExpectedId delivery;
    Grams mass;
    bool is_locked = false;
    std::string reason;
};
using GivenByRun = std::map<RunId, std::vector<Given>>;

GivenByRun given_by_book(const Book& book);
/// "1200 kg W24-118 + 300 kg W24-121 (locked)"; "nothing".
std::string in_words(const Book& book, const std::vector<Given>& given);
/// The same lots and deliveries with the same grams, in whatever order.
bool is_same(const std::vector<Given>& a, const std::vector<Given>& b);

} // namespace mellowbin::app
