#include "ui/widgets/table.h"

namespace mellowbin::ui {

void RowWriter::cell(std::string_view words, Role role) {
    if (used_ == cells_.size())
        cells_.emplace_back();
    cells_[used_].words.assign(words);
    cells_[used_].role = role;
    cells_[used_].key.reset();
    ++used_;
}

void RowWriter::cell(Texture key, std::string_view words, Role role) {
    cell(words, role);
    cells_[used_ - 1].key = key;
}

void RowWriter::clear() {
    used_ = 0;
    dim_ = false;
}

} // namespace mellowbin::ui
