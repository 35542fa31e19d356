#include "core/typed_text.h"
#include "exchange/whole_book.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <istream>
#include <limits>
#include <optional>
#include <set>

namespace mellowbin::exchange {
namespace {

/// What the words that are read now belong to, from the outside in.
enum class Within { nothing, document, tables, table, columns, column, rows, row, cell };

/// Walks with the parser, holding the row that it is in. Every call gives whether to go on.
class Walk final : public nlohmann::json_sax<nlohmann::json> {
public:
    explicit Walk(WholeBookListener& listener) : listener_(listener) {}

    [[nodiscard]] Result<Done> result() const {
        return why_        ? Result<Done>(*why_)
               : is_whole_ ? Result<Done>(Done{})
                           : Result<Done>(fault("it is torn"));
    }

    bool null() override { return value({}); }
    bool boolean(bool) override { return refuse("a word that is neither text nor number stands there"); }
    bool number_integer(std::int64_t whole) override { return value(whole); }
    bool number_unsigned(std::uint64_t whole) override {
        if (whole > static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max()))
            return refuse("a whole number is greater than any in a book");
        return value(static_cast<std::int64_t>(whole));
    }
    bool number_float(double real, const std::string&) override { return value(real); }
    bool string(std::string& text) override { return value(std::move(text)); }
    bool binary(binary_t&) override { return refuse("bytes stand there"); }

    bool start_object(std::size_t) override {
        switch (within_) {
        case Within::nothing:
            return enter(Within::document);
        case Within::document:
            if (key_ != "tables")
                break;
            return begin_tables();
        case Within::tables:
            return begin_table();
        case Within::columns:
            columns_.emplace_back();
            return enter(Within::column);
        case Within::row:
            return enter(Within::cell);
        default:
            break;
        }
        return refuse("an object stands where none belongs");
    }
    bool end_object() override {
        switch (within_) {
        case Within::document:
            is_whole_ = has_tables_;
            return has_tables_ ? leave(Within::nothing) : refuse("it has no tables");
        case Within::tables:
            return leave(Within::document);
        case Within::table:
            return has_rows_ ? leave(Within::tables) : refuse("the table has no rows");
        case Within::column:
            return columns_.back().name.empty() ? refuse("a column has no name") : leave(Within::columns);
        default:
            return leave(Within::row);
        }
    }
    bool start_array(std::size_t) override {
        if (within_ == Within::table && key_ == "columns" && columns_.empty())
            return enter(Within::columns);
        if (within_ == Within::table && key_ == "rows" && !has_rows_)
            return begin_rows();
        if (within_ == Within::rows) {
            ++row_number_;
            row_.clear();
            return enter(Within::row);
        }
        return refuse("a list stands where none belongs");
    }
    bool end_array() override {
        if (within_ == Within::row)
            return end_row();
        return leave(Within::table);
    }
    bool key(std::string& name) override {
        key_ = std::move(name);
        return true;
    }
    bool parse_error(std::size_t place, const std::string&, const nlohmann::detail::exception&) override {
        return refuse(fmt::format("it is torn, or no JSON: byte {} cannot be read", place));
    }

private:
    [[nodiscard]] Refusal fault(std::string_view what) const {
        std::string where = "Document";
        if (!table_.empty())
            where = row_number_ > 0 ? fmt::format("Table {}, row {}", excerpt(table_), row_number_)
                                    : fmt::format("Table {}", excerpt(table_));
        return {where, std::string(what), "Choose a file that mellowbin save-book-as-json wrote"};
    }
    bool refuse(std::string_view what) {
        if (!why_)
            why_ = Refusals{fault(what)};
        return false;
    }
    bool take(const Result<Done>& heard) {
        if (!heard)
            why_ = heard.refusals();
        return bool(heard);
    }
    bool enter(Within part) {
        within_ = part;
        return true;
    }
    bool leave(Within to) {
        within_ = to;
        return true;
    }

    bool begin_tables() {
        if (!form_ || has_tables_)
            return refuse(form_ ? "the tables stand twice"
                                : "which form of the book it is stands nowhere before them");
        if (document_ != "mellowbin whole book" || version_ != whole_book_version)
            return refuse(fmt::format("it is no whole book of version {}", whole_book_version));
        has_tables_ = true;
        return take(listener_.begin(*form_)) && enter(Within::tables);
    }
    bool begin_table() {
        table_ = key_;
        columns_.clear();
        has_rows_ = false;
        row_number_ = 0;
        return seen_.insert(table_).second ? enter(Within::table) : refuse("the table stands twice");
    }
    bool begin_rows() {
        has_rows_ = true;
        if (columns_.empty())
            return refuse("its columns do not stand before its rows");
        return take(listener_.table(table_, columns_)) && enter(Within::rows);
    }
    bool end_row() {
        if (row_.size() != columns_.size())
            return refuse(fmt::format("{} cells were read; {} are expected", row_.size(), columns_.size()));
        return take(listener_.row(row_)) && leave(Within::rows);
    }

    bool value(BookCell cell) {
        switch (within_) {
        case Within::document:
            return head(cell);
        case Within::column:
            return column_word(cell);
        case Within::row:
            return put(std::move(cell));
        case Within::cell:
            return put_special(cell);
        default:
            return refuse("a value stands where none belongs");
        }
    }
    bool head(const BookCell& cell) {
        const auto* text = std::get_if<std::string>(&cell);
        const auto* whole = std::get_if<std::int64_t>(&cell);
        if (key_ == "document" && text)
            document_ = *text;
        else if (key_ == "version" && whole)
            version_ = *whole;
        else if (key_ == "book_form" && whole && *whole >= 1 && *whole <= std::numeric_limits<int>::max())
            form_ = static_cast<int>(*whole);
        else if (key_ != "made_at" || !text)
            return refuse(fmt::format("\"{}\" is not known, or not what it should be", excerpt(key_)));
        return true;
    }
    bool column_word(const BookCell& cell) {
        const auto* text = std::get_if<std::string>(&cell);
        auto& column = columns_.back();
        if (text && key_ == "name")
            column.name = *text;
        else if (text && key_ == "holds" && (*text == "whole" || *text == "real" || *text == "text"))
            column.holds = *text == "whole"  ? BookColumn::Holds::whole
                           : *text == "real" ? BookColumn::Holds::real
                                             : BookColumn::Holds::text;
        else
            return refuse("a column says what is not known");
        return true;
    }
    /// A number without a point may stand in a column of reals.
    bool put(BookCell cell) {
        if (row_.size() >= columns_.size())
            return refuse(fmt::format("more than {} cells stand in it", columns_.size()));
        const auto& column = columns_[row_.size()];
        const bool is_real = column.holds == BookColumn::Holds::real;
        if (const auto* whole = std::get_if<std::int64_t>(&cell); whole && is_real)
            cell = static_cast<double>(*whole);
        const bool fits =
            std::holds_alternative<std::monostate>(cell) ||
            (column.holds == BookColumn::Holds::whole && std::holds_alternative<std::int64_t>(cell)) ||
            (is_real && std::holds_alternative<double>(cell)) ||
            (column.holds == BookColumn::Holds::text && std::holds_alternative<std::string>(cell));
        if (!fits)
            return refuse(fmt::format("column {} holds something else", excerpt(column.name)));
        row_.push_back(std::move(cell));
        return true;
    }
    bool put_special(const BookCell& cell) {
        if (const auto* sign = std::get_if<std::int64_t>(&cell);
            sign && key_ == "infinite" && (*sign == 1 || *sign == -1))
            return put(static_cast<double>(*sign) * std::numeric_limits<double>::infinity());
        const auto* hex = std::get_if<std::string>(&cell);
        const bool is_hex = hex && key_ == "hex" && hex->size() % 2 == 0 &&
                            hex->find_first_not_of("0123456789abcdef") == std::string::npos;
        if (!is_hex)
            return refuse("a cell holds what is not known");
        std::string bytes;
        for (std::size_t at = 0; at < hex->size(); at += 2)
            bytes += static_cast<char>(std::stoi(hex->substr(at, 2), nullptr, 16));
        return put(std::move(bytes));
    }

    WholeBookListener& listener_;
    Within within_ = Within::nothing;
    std::string key_, document_, table_;
    std::int64_t version_ = 0;
    std::optional<int> form_;
    bool has_tables_ = false, has_rows_ = false, is_whole_ = false;
    std::vector<BookColumn> columns_;
    std::vector<BookCell> row_;
    std::size_t row_number_ = 0;
    std::set<std::string> seen_;
    std::optional<Refusals> why_;
};

} // namespace

Result<Done> read_whole_book(std::istream& in, WholeBookListener& listener) {
    Walk walk(listener);
    nlohmann::json::sax_parse(in, &walk);
    return walk.result();
}

} // namespace mellowbin::exchange
