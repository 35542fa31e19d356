#pragma once

#include "core/listing.h"
#include "print/sheet.h"

#include <span>
#include <string>

/// Any list on paper.
namespace mellowbin::print {

/// When a paper was made.
struct Made {
    std::string words; ///< "Wed 25 Nov 2026, 04:10", behind it whose it is
    Instant at;
};

/// Title, notes and one table; across where its columns want more than the paper is wide. With `count`, a
/// column of this head stands behind the others, empty, and rows have room to write.
Sheet sheet_of(const Listing& listing, PageSize paper, const Made& made, const std::string& count = {});
/// Several lists one after another, each under its title; across where one of them wants more than the paper
/// is wide.
Sheet sheet_of(std::span<const Listing> listings, const std::string& title, PageSize paper, const Made& made);
/// The same as PDF.
Result<std::string> pdf_of(const Listing& listing, PageSize paper, const Made& made);

} // namespace mellowbin::print
