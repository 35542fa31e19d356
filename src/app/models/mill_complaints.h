#pragma once

#include "app/models/mill_record.h"

namespace mellowbin::app {

/// Those that are open, whenever they were noticed, and those noticed in these days: the open ones first,
/// then the newest.
std::vector<ComplaintRow> complaints_of(const Station& station, MillId mill, Day from, Day until);

/// "Protein, lot W24-118, 1000 kg: lower than on the certificate"; `lot`: its number, or empty.
std::string in_words(const Complaint& complaint, const std::string& lot);

} // namespace mellowbin::app
