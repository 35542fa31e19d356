#pragma once

#include "ui/widgets/inner.h"

#include <cstddef>
#include <cstdint>
#include <optional>

namespace mellowbin::ui::inner {

using RecordOf = FunctionRef<std::int64_t(std::size_t)>;

/// Rows from one up to, not with, the other.
struct RowSpan {
    std::size_t from, to;
};
/// Those seen in the scrolling window being drawn.
RowSpan seen_rows(std::size_t rows, float height);
void scroll_to_row(std::size_t at, float height);
std::optional<std::size_t> place_of(std::size_t rows, RecordOf record, std::optional<std::int64_t> wanted);
/// Up, Down, pages and ends: the row to select now.
std::optional<std::size_t> row_by_key(std::size_t rows, RecordOf record, std::optional<std::int64_t> selected,
                                      float seen_height, float row_height);

/// A table, chart or board is one stop of the Tab ring. True when it has the focus.
bool list_stop(ImGuiID id, std::string_view name, const ImRect& rect);
void list_edge(const ImRect& rect, bool focused);
/// What it is and how much is in it, for tests: "5000 rows".
void note_list(std::string_view name, const ImRect& rect, ImGuiID id, bool focused, std::size_t count,
               const char* one);
/// A row, card: pressed when the pointer goes down, no stop of its own.
Pressable list_item(std::int64_t record, const char* kind, const ImRect& rect);
/// The note of a row or card: its words need not be unique, its path is.
Note* note_item(Kind kind, std::string_view label, const ImRect& rect, const Pressable& item, bool chosen);
void draw_empty(std::string_view words, const ImRect& body);

} // namespace mellowbin::ui::inner
