#include "exchange/whole_book.h"
#include "fuzz/target.h"

#include <sstream>
#include <string>

namespace mellowbin::fuzz {
namespace {

/// Hears a document out, and looks that rows come after a table, as wide as it is.
class Heard final : public exchange::WholeBookListener {
public:
    Result<Done> begin(int form) override {
        expect(!is_begun_, "a document begins once");
        expect(form > 0, "a book has a form");
        is_begun_ = true;
        return Done{};
    }
    Result<Done> table(const std::string&, const std::vector<exchange::BookColumn>& columns) override {
        expect(is_begun_, "tables come after the beginning");
        columns_ = columns;
        return Done{};
    }
    Result<Done> row(const std::vector<exchange::BookCell>& cells) override {
        expect(cells.size() == columns_.size(), "a row is as wide as its table");
        for (std::size_t at = 0; at < cells.size(); ++at)
            expect(cells[at].index() == 0 || fits(cells[at], columns_[at].holds),
                   "a cell is what its column holds");
        return Done{};
    }
    [[nodiscard]] bool is_begun() const { return is_begun_; }

private:
    static bool fits(const exchange::BookCell& cell, exchange::BookColumn::Holds holds) {
        switch (holds) {
        case exchange::BookColumn::Holds::whole:
            return std::holds_alternative<std::int64_t>(cell);
        case exchange::BookColumn::Holds::real:
            return std::holds_alternative<double>(cell);
        case exchange::BookColumn::Holds::text:
            break;
        }
        return std::holds_alternative<std::string>(cell);
    }

    bool is_begun_ = false;
    std::vector<exchange::BookColumn> columns_;
};

void take(std::string_view bytes) {
    std::istringstream in{std::string(bytes)};
    Heard heard;
    const auto read = exchange::read_whole_book(in, heard);
    if (!read)
        return expect_well_said(read.refusals(), bytes);
    expect(heard.is_begun(), "a document that is read has a beginning");
}

const Registered target{"whole_book", take};

} // namespace
} // namespace mellowbin::fuzz
