#include "exchange/certificate_property_heads.h"

#include <algorithm>

namespace mellowbin::exchange {

std::vector<std::size_t> PropertyHeads::lot_columns() const {
    std::vector<std::size_t> lots;
    if (std::find(says.begin(), says.end(), TableHead::value) == says.end())
        for (std::size_t i = 0; i < says.size(); ++i)
            if (!says[i] && i != property)
                lots.push_back(i);
    return lots;
}

std::optional<PropertyHeads> property_heads(const Sheet& sheet, std::size_t row,
                                            const std::vector<FilledCell>& cells) {
    PropertyHeads heads;
    std::size_t known = 0;
    for (const auto& filled : cells) {
        const std::string& text = sheet.rows[row].cells[filled.column].text;
        heads.columns.push_back(filled);
        heads.texts.push_back(text);
        heads.says.push_back(table_head(text));
        known += heads.says.back() ? 1 : 0;
    }
    const auto property = std::find(heads.says.begin(), heads.says.end(), TableHead::property);
    const bool has_property = property != heads.says.end();
    const bool has_value =
        std::find(heads.says.begin(), heads.says.end(), TableHead::value) != heads.says.end();
    if (known < 2 || !(has_property || has_value))
        return {};
    heads.property = has_property ? static_cast<std::size_t>(property - heads.says.begin()) : 0;
    // Two and more columns beside the known ones are lots side by side; a single one is the value.
    if (const auto lots = heads.lot_columns(); lots.size() == 1)
        heads.says[lots.front()] = TableHead::value;
    return heads;
}

} // namespace mellowbin::exchange
