#pragma once

#include "exchange/certificate_layout.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::exchange {

/// A column of a table of properties that is a lot's own.
struct LotColumn {
    FilledCell place;
    std::size_t row = 0;
    std::string code;
    std::size_t label = 0;    ///< by which the code is a lot number
    std::string trouble = {}; ///< of the field with the code
};

/// Tells which lot a value is of, on a sheet that is read from above: a lot's number begins a lot, and what
/// stands above it since the last one's results is of it, too; lots may lie side by side in columns. What is
/// said of no lot in particular is of every lot.
class LotsOnPaper {
public:
    LotsOnPaper(std::size_t sheet, LabelBook& labels, CertificateLayout& layout);

    void open_columns(std::vector<LotColumn> columns);
    [[nodiscard]] bool has_columns() const { return !columns_.empty(); }
    /// A value, in a lot's column where one is given.
    void put(LaidOutValue value, const FilledCell* column);
    /// At the end of the sheet: what waited for a lot's number has none.
    void finish();

private:
    struct OpenColumn {
        FilledCell place;
        std::size_t lot = 0;
    };

    [[nodiscard]] bool is_fact(const LaidOutValue& value) const;
    [[nodiscard]] bool is(const LaidOutValue& value, LotFact fact) const;
    std::size_t lot_of(const std::string& code, const LaidOutValue& at);
    void put_in_column(LaidOutValue value, const FilledCell& place);
    void begin_lot(LaidOutValue number);
    void give_waiting_to(std::size_t lot);
    void keep(LaidOutValue value, std::size_t lot);
    void leave_out(const LaidOutValue& value);

    std::size_t sheet_;
    LabelBook& labels_;
    CertificateLayout& layout_;
    std::map<std::string, std::size_t> by_code_;
    std::vector<OpenColumn> columns_;
    std::optional<std::size_t> lot_;    ///< of which the lines are
    std::vector<LaidOutValue> waiting_; ///< for a lot's number, or the end
    bool has_results_ = false;          ///< since the lot began
};

} // namespace mellowbin::exchange
