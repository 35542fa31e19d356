#pragma once

#include "ui/widgets/rows.h"
#include "ui/widgets/table.h"

#include <vector>

namespace mellowbin::ui::inner {

/// Where the columns stand.
struct TableSizes {
    std::vector<float> left, width; ///< of the columns, from the table's left edge; width 0: it gave way
    float total = 0;
    float head = 0, row = 0, pad = 0;
};

TableSizes table_sizes(const Table& table, ImGuiID id, float width);
/// The widest words of a column that were seen so far, with their sign: samples are guesses, and words are
/// not cut.
float& widest_seen(ImGuiID id, std::size_t column);
/// What a table remembers by itself: the head that Left and Right chose (1 is the first, 0 none), and how far
/// it is scrolled sideways, for the heads stand outside of what scrolls.
float& head_at(ImGuiID id);
float& scroll_x(ImGuiID id);

void draw_heads(const Table& table, const ImRect& rect, const TableSizes& sizes, ImGuiID id, bool focused,
                TableState& own, TableEvents& events);
/// Left and Right choose a head, Space sorts by it. True when another head was chosen.
bool heads_by_key(const Table& table, const TableSizes& sizes, ImGuiID id, TableState& own,
                  TableEvents& events);
/// Brings the chosen head's column into view.
void scroll_to_head(const TableSizes& sizes, ImGuiID id, float width);

} // namespace mellowbin::ui::inner
