#pragma once

#include "core/result.h"

#include <filesystem>
#include <functional>
#include <stop_token>
#include <string>
#include <string_view>

namespace mellowbin {
struct Listing;
}

namespace mellowbin::exchange {

/// Who waits for a long list: hears the share that is done (0 to 1, on the thread that writes), and may stop
/// it.
struct ListingWait {
    std::function<void(double share)> share_done = {};
    std::stop_token stop = {};
};

enum class Written { whole, stopped };

/// Writes the list as a spreadsheet (.xlsx) of two sheets: the list with its head row frozen, then "About"
/// with its title and notes. Numbers are numbers, shown with their decimals; days and instants are dates
/// (instants in UTC); text is text, whatever it begins with; what is missing is an empty cell. Row by row, so
/// that memory does not grow with the list. What was written is read back before this returns: the library
/// does not hear of a disk that takes no more of its temporary files. Refused where the file could not be
/// written whole, or a sheet has no room for it; then, and when stopped, what lies under the name is for the
/// caller to take away.
Result<Written> write_listing_xlsx(const Listing& listing, const std::filesystem::path& file,
                                   const ListingWait& wait = {});

/// The name as a sheet may bear it: at most 31 characters, none of [ ] : * ? / \, no apostrophe at its ends,
/// not empty and not "History" (support.microsoft.com, "Rename a worksheet": from memory).
std::string legal_sheet_name(std::string_view name);

} // namespace mellowbin::exchange
