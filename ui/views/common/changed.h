#pragma once

#include <string_view>

namespace mellowbin::views {

/// In a form: another station changed its record meanwhile; nothing where it did not. `who` is "04:12, Ines".
void changed_meanwhile(std::string_view who);
/// The record is not as it was when the form was begun: what stands there now, and who changed it, where that
/// is known.
void stands_otherwise(std::string_view now, std::string_view who);

} // namespace mellowbin::views
