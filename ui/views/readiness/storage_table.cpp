#include "ui/views/readiness/storage_table.h"

#include "app/models/story.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <array>

namespace mellowbin::views {

using namespace ui::literals;

namespace {

constexpr ui::Column number(std::string_view head, std::string_view unit, std::string_view sample) {
    return {.head = head, .unit = unit, .sample = sample, .align = ui::Align::right, .sortable = false};
}

} // namespace

void storage_table(std::span<const app::StorageDay> days) {
    static constexpr std::array columns{
        ui::Column{.head = "Day", .sample = "2026-11-25", .sortable = false},
        number("Low", "°C", "-10.0"),
        number("Mean", "°C", "-10.0"),
        number("High", "°C", "-10.0"),
        number("Humidity", "%", "100"),
        number("Flour moisture", "%", "14.5"),
        number("Measured", "%", "100"),
    };
    ui::TableState state;
    const auto record = [&](std::size_t i) { return static_cast<std::int64_t>(i) + 1; };
    const auto write = [&](std::size_t i, ui::RowWriter& row) {
        const auto& day = days[i];
        row.cell(iso(day.day));
        row.cell(number_words(day.low, 1));
        row.cell(number_words(day.mean, 1));
        row.cell(number_words(day.high, 1));
        row.cell(number_words(day.humidity, 0));
        row.cell(number_words(day.flour_moisture, 1));
        row.cell(number_words(day.measured * 100, 0));
    };
    ui::table({.name = "Storage by day",
               .columns = columns,
               .rows = days.size(),
               .record = record,
               .write_row = write,
               .density = ui::Density::close,
               .height = 16_em},
              state);
}

} // namespace mellowbin::views
