#include "app/book/station.h"

#include <utility>

namespace mellowbin::app {

JournalLine Station::journal_line(std::string intent, std::string subject, std::string words) const {
    return {0, setup.clock.now(), setup.person, std::move(intent), std::move(subject), std::move(words), ""};
}

} // namespace mellowbin::app
