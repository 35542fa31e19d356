#include "exchange/csv.h"
#include "fuzz/target.h"

namespace mellowbin::fuzz {
namespace {

std::string quoted(const std::string& field) {
    std::string text = "\"";
    for (const char c : field)
        text += c == '"' ? std::string("\"\"") : std::string(1, c);
    return text + '"';
}

std::string line_of(const std::vector<std::string>& fields, char separator) {
    std::string line;
    for (const auto& field : fields)
        line += (line.empty() ? "" : std::string(1, separator)) + quoted(field);
    return line + "\r\n";
}

/// Every field in quotation marks, as spreadsheets may write it.
void expect_to_come_back(const CsvTable& table) {
    std::string text = std::string("sep=") + table.separator + "\r\n" + line_of(table.heads, table.separator);
    for (const auto& row : table.rows)
        text += line_of(row.fields, table.separator);
    const auto again = read_csv(text, RaggedRows::keep);
    expect(again && again->heads == table.heads && again->rows.size() == table.rows.size(),
           "a table that is written reads back with its heads and rows");
    for (std::size_t i = 0; i < table.rows.size(); ++i)
        expect(again->rows[i].fields == table.rows[i].fields, "a row that is written reads back the same");
}

void take(std::string_view bytes) {
    const auto table = read_csv(bytes, RaggedRows::keep);
    const auto strict = read_csv(bytes, RaggedRows::refuse);
    if (!table) {
        expect(!strict, "what is no table is none with other rows either");
        return expect_well_said(table.refusals(), bytes);
    }
    std::size_t line = table->head_line;
    bool is_ragged = false;
    for (const auto& row : table->rows) {
        expect(row.line > line && row.line <= bytes.size() + 1, "rows follow each other, line by line");
        line = row.line;
        is_ragged = is_ragged || row.fields.size() != table->heads.size();
        for (const auto& field : row.fields)
            expect_text(field);
    }
    expect(static_cast<bool>(strict) != is_ragged, "only rows of another width are refused");
    if (!strict)
        expect_well_said(strict.refusals(), bytes);
    // A head alone of nothing but blanks would be an empty line.
    if (!table->heads.empty())
        expect_to_come_back(*table);
}

const Registered target{"csv", take};

} // namespace
} // namespace mellowbin::fuzz
