#include "cli/json_parts.h"

namespace mellowbin::cli {

std::string as_document(const ordered_json& json) { return json.dump(2) + "\n"; }

} // namespace mellowbin::cli
