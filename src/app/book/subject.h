#pragma once

#include "core/lot.h"
#include "core/plant.h"
#include "db/record.h"

#include <optional>
#include <string>

namespace mellowbin::app {

/// What a line of the journal is about: in words, and the record where it is about one.
struct Subject {
    Subject(std::string subject) : words(std::move(subject)) {}
    Subject(const char* subject) : words(subject) {}
    /// A record that is not yet in the book has no number to be known by.
    Subject(std::string subject, RecordRef about) : words(std::move(subject)) {
        if (about.number != 0)
            record = about;
    }

    std::string words; ///< "lot W24-118"
    std::optional<RecordRef> record;
};

inline Subject subject_of(const Lot& lot) { return {"lot " + lot.code, record_of(lot.id)}; }
inline Subject subject_of(const Run& run) { return {"run " + run.code, record_of(run.id)}; }
inline Subject subject_of(const Place& place) { return {"place " + place.name, record_of(place.id)}; }
inline Subject subject_of(const Product& product) {
    return {"product " + product.name, record_of(product.id)};
}
inline Subject subject_of(const ExpectedDelivery& delivery) {
    return {"delivery " + delivery.code, record_of(delivery.id)};
}

inline Subject subject_of(BegunId id) {
    return {"begun delivery " + std::to_string(id.number()), record_of(id)};
}

} // namespace mellowbin::app
