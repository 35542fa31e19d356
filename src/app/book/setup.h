#pragma once

#include "app/book/clock.h"

#include <string>

namespace mellowbin::app {

struct AppSetup {
    std::string book; ///< path, or ":memory:"
    std::string person;
    Clock clock;
};

} // namespace mellowbin::app
