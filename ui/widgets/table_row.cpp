#include "ui/widgets/table.h"

namespace mellowbin::ui {

void RowWriter::cell(std::string_view words, Role role) {
    if (used_ == cells_.size())
        cells_.emplace_back();
    cells_[used_].words.assign(words);
    cells_[used_].role = role;
    ++used_;
}

void RowWriter::clear() {
    used_ = 0;
    dim_ = false;
}

} // namespace mellowbin::ui
