#include "db/property_rows.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin {
namespace {

/// A property as the book has it.
struct PropertyRow {
    std::string key;
    double low = 0;
    double high = 0;
    bool has_basis = false;
};

std::vector<PropertyRow> rows_of(Connection& book) {
    std::vector<PropertyRow> rows;
    book.query("SELECT property_key, low, high, has_basis FROM property", {}, [&](const Row& row) {
        rows.push_back({row.words(0), row.real(1), row.real(2), row.integer(3) != 0});
    });
    return rows;
}

void refuse_unknown(const std::vector<PropertyRow>& rows, std::span<const PropertyTraits> properties) {
    for (const auto& row : rows)
        if (std::none_of(properties.begin(), properties.end(),
                         [&](const PropertyTraits& t) { return t.key == row.key; }))
            throw BookError(
                BookFault::newer_book,
                fmt::format("The book was used by a newer version of mellowbin, which knows the property "
                            "\"{}\"; this version does not. It was not changed. Open it with the newer "
                            "version.",
                            row.key));
}

bool is_right(const std::vector<PropertyRow>& rows, const PropertyTraits& t) {
    return std::any_of(rows.begin(), rows.end(), [&](const PropertyRow& row) {
        return row.key == t.key && row.low == t.lowest && row.high == t.highest &&
               row.has_basis == t.has_basis;
    });
}

} // namespace

void bring_properties_up_to_date(Connection& book, std::span<const PropertyTraits> properties) {
    const auto rows = rows_of(book);
    refuse_unknown(rows, properties);
    if (std::all_of(properties.begin(), properties.end(),
                    [&](const PropertyTraits& t) { return is_right(rows, t); }))
        return;
    Transaction transaction(book);
    for (const auto& t : properties)
        book.execute("INSERT INTO property (property_key, low, high, has_basis) VALUES ($1, $2, $3, $4) "
                     "ON CONFLICT (property_key) DO UPDATE SET low = excluded.low, high = excluded.high, "
                     "has_basis = excluded.has_basis",
                     {t.key, t.lowest, t.highest, t.has_basis ? 1 : 0});
    transaction.commit();
}

} // namespace mellowbin
