#include "exchange/text_encoding.h"
#include "exchange/whole_book.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <array>
#include <charconv>
#include <cmath>
#include <ostream>

namespace mellowbin::exchange {
namespace {

std::string_view key_of(BookColumn::Holds holds) {
    switch (holds) {
    case BookColumn::Holds::whole:
        return "whole";
    case BookColumn::Holds::real:
        return "real";
    case BookColumn::Holds::text:
        break;
    }
    return "text";
}

std::string json_text(const std::string& text) { return nlohmann::json(text).dump(); }

struct IntoJson {
    std::string operator()(std::monostate) const { return "null"; }
    std::string operator()(std::int64_t whole) const { return std::to_string(whole); }
    std::string operator()(double real) const {
        if (!std::isfinite(real))
            return fmt::format(R"({{"infinite":{}}})", real > 0 ? 1 : -1);
        std::array<char, 40> digits; // 17 of them, sign, point and exponent
        const auto end = std::to_chars(digits.begin(), digits.end(), real).ptr;
        std::string words(digits.begin(), end);
        if (words.find_first_of(".e") == std::string::npos)
            words += ".0"; // a reader that tells kinds of numbers apart sees which it is
        return words;
    }
    std::string operator()(const std::string& text) const {
        if (is_utf8(text))
            return json_text(text);
        std::string hex;
        for (const char c : text)
            hex += fmt::format("{:02x}", static_cast<unsigned char>(c));
        return fmt::format(R"({{"hex":"{}"}})", hex);
    }
};

} // namespace

WholeBookWriter::WholeBookWriter(std::ostream& out, int form, const std::string& made_at) : out_(out) {
    out_ << "{\n\"document\": \"mellowbin whole book\",\n\"version\": " << whole_book_version
         << ",\n\"book_form\": " << form << ",\n\"made_at\": " << json_text(made_at) << ",\n\"tables\": {";
}

void WholeBookWriter::begin_table(const std::string& name, std::span<const BookColumn> columns) {
    out_ << (is_first_table_ ? "\n" : ",\n") << json_text(name) << ": {\n\"columns\": [";
    is_first_table_ = false;
    is_first_row_ = true;
    for (std::size_t at = 0; at < columns.size(); ++at)
        out_ << (at == 0 ? "" : ", ") << "{\"name\": " << json_text(columns[at].name) << ", \"holds\": \""
             << key_of(columns[at].holds) << "\"}";
    out_ << "],\n\"rows\": [";
}

void WholeBookWriter::row(std::span<const BookCell> cells) {
    out_ << (is_first_row_ ? "\n[" : ",\n[");
    is_first_row_ = false;
    for (std::size_t at = 0; at < cells.size(); ++at)
        out_ << (at == 0 ? "" : ",") << std::visit(IntoJson(), cells[at]);
    out_ << ']';
}

void WholeBookWriter::end_table() { out_ << "\n]}"; }

void WholeBookWriter::end() { out_ << "\n}\n}\n"; }

} // namespace mellowbin::exchange
