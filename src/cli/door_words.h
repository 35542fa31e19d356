#pragma once

#include "core/door.h"
#include "core/result.h"

#include <string_view>

namespace mellowbin::cli {

/// How a check at the door is written on the command line.
inline constexpr const char* door_check_form =
    "QUESTION=yes|no|not looked at[; lot=LOT][; BAGS bags][; NOTE]";

/// Takes a check apart: "Bags dry=no; 3 bags; wet at one corner". A part that begins with a digit and ends
/// with "bags" is how many; what else stands there is the note. The answer and the count are read where all
/// are. Refused: another form, no answer, two counts.
Result<DoorCheckDraft> read_door_check(std::string_view typed);

} // namespace mellowbin::cli
