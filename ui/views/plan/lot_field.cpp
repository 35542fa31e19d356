#include "ui/views/plan/lot_field.h"

#include "app/models/lots.h"
#include "ui/views/common/day_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace mellowbin::views {
namespace {

std::string plain(std::string_view code) {
    const auto is_space = [](char c) { return std::isspace(static_cast<unsigned char>(c)) != 0; };
    while (!code.empty() && is_space(code.front()))
        code.remove_prefix(1);
    while (!code.empty() && is_space(code.back()))
        code.remove_suffix(1);
    std::string lower(code);
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); });
    return lower;
}

} // namespace

const app::LotRow* lot_in_stock(const app::LotsModel& lots, std::string_view code) {
    const auto wanted = plain(code);
    const auto lot = std::find_if(lots.rows.begin(), lots.rows.end(), [&](const app::LotRow& row) {
        return row.stock_kg > 0 && plain(row.code) == wanted;
    });
    return wanted.empty() || lot == lots.rows.end() ? nullptr : &*lot;
}

void lot_field(ui::Field field, const app::LotsModel& lots, std::string& code) {
    std::string note;
    if (const auto* lot = lot_in_stock(lots, code))
        note = fmt::format("{}, {} kg in stock", lot->flour, kilograms(lot->stock_kg));
    else if (!plain(code).empty())
        note = "no lot in stock has this number";
    if (!note.empty())
        field.note = note;
    field.hint = "W24-118";
    ui::text_field(field, code);
}

Refusal no_such_lot(std::string_view field, std::string_view code) {
    if (plain(code).empty())
        return {std::string(field), "is empty; the number of a lot in stock is expected", "Type or scan it"};
    return {std::string(field),
            fmt::format("\"{}\" was read; the number of a lot in stock is expected", code),
            "Type it as it stands on the bag"};
}

} // namespace mellowbin::views
