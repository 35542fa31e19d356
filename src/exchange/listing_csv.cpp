#include "exchange/listing_csv.h"

#include "core/listing.h"
#include "exchange/csv.h"

#include <string_view>
#include <vector>

namespace mellowbin::exchange {
namespace {

struct IntoField {
    CsvWriter& csv;

    void operator()(std::monostate) const { csv.missing(); }
    void operator()(const std::string& text) const { csv.text(text); }
    void operator()(double number) const { csv.exact(number); }
    void operator()(Day day) const { csv.text(iso(day)); }
    void operator()(Instant instant) const { csv.text(iso(instant)); }
};

} // namespace

std::string write_listing_csv(const Listing& listing) {
    std::vector<std::string> heads;
    for (const auto& column : listing.columns)
        heads.push_back(head_of(column));
    const std::vector<std::string_view> views(heads.begin(), heads.end());
    CsvWriter csv(views);
    for (const auto& row : listing.rows) {
        for (const auto& cell : row)
            std::visit(IntoField{csv}, cell);
        csv.end_row();
    }
    return csv.bytes();
}

} // namespace mellowbin::exchange
