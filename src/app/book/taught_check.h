#pragma once

#include "db/connection.h"

#include <string>
#include <vector>

namespace mellowbin::app {

/// What is wrong with what doughs taught, as the book keeps it: the newest mark is made once more from the
/// one before it and the batches between, or from the first batch where there is only one. Sentences with
/// what to do; empty when it is right. Throws BookError.
std::vector<std::string> faults_of_what_is_taught(Connection& connection);

} // namespace mellowbin::app
