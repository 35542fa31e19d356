#include "support/cgc_flours.h"

#include <charconv>
#include <sstream>
#include <stdexcept>
#include <vector>

namespace mellowbin::testing {
namespace {

struct Column {
    const char* id;
    const char* head; ///< as intake reads it
};

constexpr Column columns[] = {
    {"protein_14mb", "protein % (14 % moisture)"},
    {"wet_gluten", "wet gluten % (14 % moisture)"},
    {"gluten_index", "gluten index"},
    {"ash_14mb", "ash % (14 % moisture)"},
    {"starch_damage", "damaged starch % (14 % moisture)"},
    {"farino_abs", "absorption % (14 % moisture)"},
    {"farino_ddt_min", "development time min"},
    {"farino_stab_min", "stability min"},
    {"ext_rmax_bu", "extensograph resistance EU"}, // one unit by two names
    {"ext_len_cm", "extensibility mm"},
    {"ext_area_cm2", "extensograph energy cm2"},
    {"alv_p_mm", "alveograph P mm"},
    {"alv_l_mm", "alveograph L mm"},
    {"alv_w", "alveograph W 1e-4 J"},
    {"period", "period"},
    {"sample", "sample"},
    {"wheat_fn_s", "wheat falling number s"},
    {"loaf_vol_cc100g", "loaf volume cc per 100 g"},
};

std::vector<std::string> cells_of(std::string_view line) {
    std::vector<std::string> cells(1);
    for (const char c : line) {
        if (c == '"')
            throw std::runtime_error("the table of flours has no quoted cells");
        if (c == ',')
            cells.emplace_back();
        else if (c != '\r')
            cells.back() += c;
    }
    return cells;
}

std::size_t place_of(const std::vector<std::string>& heads, std::string_view id) {
    for (std::size_t i = 0; i < heads.size(); ++i)
        if (heads[i] == id)
            return i;
    throw std::runtime_error("the table of flours has no column " + std::string(id));
}

/// "20.5" cm are "205" mm: the point moves, no digit changes.
std::string millimetres(const std::string& centimetres) {
    if (centimetres.empty())
        return "";
    double cm = 0;
    const auto [end, fault] =
        std::from_chars(centimetres.data(), centimetres.data() + centimetres.size(), cm);
    if (fault != std::errc{} || end != centimetres.data() + centimetres.size())
        throw std::runtime_error("no length: " + centimetres);
    std::ostringstream mm;
    mm << cm * 10;
    return mm.str();
}

} // namespace

std::string certificates_of_cgc_flours(std::string_view table) {
    std::istringstream lines{std::string(table)};
    std::string line;
    std::getline(lines, line);
    const auto heads = cells_of(line);

    std::string file = "lot number,weight kg";
    for (const auto& column : columns)
        file += std::string(",") + column.head;
    file += "\r\n";
    while (std::getline(lines, line)) {
        const auto cells = cells_of(line);
        if (cells.size() != heads.size())
            throw std::runtime_error("the table of flours has a torn line: " + line);
        file += "CGC-" + cells[place_of(heads, "id")] + ",1000";
        for (const auto& column : columns) {
            const std::string& cell = cells[place_of(heads, column.id)];
            file += "," + (std::string_view(column.id) == "ext_len_cm" ? millimetres(cell) : cell);
        }
        file += "\r\n";
    }
    return file;
}

} // namespace mellowbin::testing
