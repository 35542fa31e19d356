#include "app/models/storage.h"

#include "app/book/station.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string assumed_words(const Place& place) {
    std::string words = fixed(place.temperature.value(), 1) + " °C";
    if (!place.climate.empty())
        words += fmt::format(", {} °C from {}", fixed(place.climate.back().temperature.value(), 1),
                             iso(place.climate.back().from));
    return words + (place.humidity ? fmt::format(", {:.0f} % humidity", 100 * place.humidity->value())
                                   : ", humidity not known");
}

std::string measured_words(const aging::ClimateCourse& course) {
    const auto logged = course.logged();
    if (!logged)
        return "";
    std::string words =
        fmt::format("{} to {}: {} readings", iso(logged->first), iso(logged->last), logged->readings);
    double longest = 0;
    for (const auto& gap : course.gaps())
        longest = std::max(longest, gap.until - gap.from);
    const auto count = course.gaps().size();
    if (count > 0)
        words +=
            fmt::format(", {} {}, the longest {:.0f} h", count, count == 1 ? "gap" : "gaps", 24 * longest);
    // Older readings are in the book, and count for older lots.
    return words + ", in the time of the lots here";
}

} // namespace

std::string set_aside_head(const LogRead& read) {
    if (read.set_aside_in_all == 0)
        return {};
    const auto lines =
        fmt::format("{} {} set aside", read.set_aside_in_all, read.set_aside_in_all == 1 ? "line" : "lines");
    return read.set_aside.size() < read.set_aside_in_all
               ? fmt::format("The first {} of {}", read.set_aside.size(), lines)
               : lines;
}

std::vector<PlaceRow> make_storage(const Station& s) {
    std::vector<PlaceRow> places;
    for (const auto& place : s.book.places) {
        PlaceRow row{
            place.id, place.name, assumed_words(place), measured_words(*s.estimates.climate(place.id)), {}};
        for (auto log = s.book.climate_logs.rbegin(); log != s.book.climate_logs.rend(); ++log)
            if (log->place == place.id)
                row.logs.push_back({log->id, log->file, log->words, log->who, log->is_withdrawn});
        places.push_back(std::move(row));
    }
    return places;
}

} // namespace mellowbin::app
