#include "app/book/station.h"

#include <utility>

namespace mellowbin::app {

JournalLine Station::journal_line(std::string intent, Subject subject, std::string words) const {
    return {
        0,  setup.clock.now(), setup.person, std::move(intent), std::move(subject.words), std::move(words),
        "", subject.record};
}

Change Station::change(std::string intent, Subject subject, std::string words) {
    return Change(*connection, journal_line(std::move(intent), std::move(subject), std::move(words)),
                  book.version);
}

void Station::remember(const Changes& changes) {
    for (const auto& line : changes.lines) {
        last_elsewhere = line;
        if (line.about)
            elsewhere.insert_or_assign(*line.about, line);
    }
}

std::string Station::changed_elsewhere(RecordRef record) const {
    const auto at = elsewhere.find(record);
    return at == elsewhere.end() ? "" : setup.clock.in_words(at->second.at, today()) + ", " + at->second.who;
}

} // namespace mellowbin::app
