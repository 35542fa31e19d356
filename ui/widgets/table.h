#pragma once

#include "ui/widgets/body.h"
#include "ui/widgets/theme.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::ui {

enum class Align { left, right };

struct Column {
    std::string_view head;
    std::string_view unit = {}; ///< in the head, quiet
    std::string_view sample =
        {};                    ///< the widest words expected: "W24-118-0001", "1250.0"; the column is so wide
    Align align = Align::left; ///< numbers right, with equal decimals
    float stretch = 0;         ///< share of the width that is left over; longer words end in "…"
    bool sortable = true;
    int gives_way = 0; ///< where the width does not do, the column of the highest number goes first; 0: never
};

enum class Texture : int;

/// What stands in one place of a row. The texts are copied while the row is written.
struct Cell {
    std::string_view words;
    Role role = Role::ink; ///< good, mind, stop and model also get their sign before the words
};

/// Takes the cells of one row, in the order of the columns.
class RowWriter {
public:
    void cell(std::string_view words, Role role = Role::ink);
    /// After a small box of this texture: how ready flour is.
    void cell(Texture key, std::string_view words, Role role = Role::ink);
    void empty() { cell("–", Role::quiet); } ///< a missing value
    /// The whole row in quiet ink: used up, rejected.
    void dim() { dim_ = true; }

    struct Written {
        std::string words;
        Role role;
        std::optional<Texture> key = {};
    };
    const std::vector<Written>& cells() const { return cells_; } ///< the first count() are of this row
    std::size_t count() const { return used_; }
    bool is_dim() const { return dim_; }
    void clear();

private:
    std::vector<Written> cells_;
    std::size_t used_ = 0;
    bool dim_ = false;
};

enum class Direction { up, down };
struct Sort {
    int column = -1; ///< -1: as the model gives them
    Direction direction = Direction::up;
    friend bool operator==(const Sort&, const Sort&) = default;
};

/// The view's own part of a table.
struct TableState {
    std::optional<std::int64_t> selected = {}; ///< by record, so a refresh keeps it
    Sort sort = {};
    bool show_selected = false; ///< set it to scroll to the selected record once
};

/// What the person did in this frame.
struct TableEvents {
    bool sort_changed = false; ///< state.sort is new: sort the read-model once
    bool selected = false;     ///< state.selected is new
    bool opened = false;       ///< Enter or a double click on the selected record
    bool pressed = false;      ///< a row was pressed with the pointer, also the one that was selected
};

enum class Density {
    touch, ///< rows of 44 px
    close, ///< rows of 32 px, for a desk
};

struct Table {
    std::string_view name; ///< for tests and ids: "Lots"
    std::span<const Column> columns;
    std::size_t rows = 0;
    FunctionRef<std::int64_t(std::size_t)> record;        ///< record id of a row
    FunctionRef<void(std::size_t, RowWriter&)> write_row; ///< called for the rows that are seen only
    std::string_view when_empty = "Nothing here yet.";    ///< says what to do first
    Density density = Density::touch;
    Length height = {}; ///< zero: what is left in the place
    /// Takes what is typed while the table has the focus; Backspace takes its last letter away. None: nothing
    /// is typed here.
    std::string* typed = nullptr;
};

/// A table people can trust: frozen head, only the rows seen are written, one row selected by its record. As
/// one stop of the Tab ring: Up, Down, Page, Home and End move the selection, Enter opens it, Left and Right
/// choose a head and Space sorts by it.
TableEvents table(const Table& table, TableState& state);

} // namespace mellowbin::ui
