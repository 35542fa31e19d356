#include "exchange/certificate_file.h"

#include "core/decimal.h"
#include "core/typed_text.h"
#include "exchange/certificate_head.h"
#include "exchange/csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace mellowbin {
namespace {

bool is_column_of(const CertificateColumn& column, std::string LotDraft::*field) {
    const auto* plain = std::get_if<FieldColumn>(&column);
    return plain && plain->field == field;
}

bool has_column(const std::vector<CertificateColumn>& columns, std::string LotDraft::*field) {
    return std::any_of(columns.begin(), columns.end(), [&](const auto& c) { return is_column_of(c, field); });
}

Result<std::vector<CertificateColumn>> read_heads(const CsvTable& table, std::vector<std::string>& notes) {
    std::vector<CertificateColumn> columns;
    Refusals refusals;
    for (const auto& head : table.heads) {
        auto column = read_certificate_head(head);
        if (!column) {
            append(refusals, column.refusals());
            continue;
        }
        if (std::holds_alternative<UnknownColumn>(*column) && !head.empty())
            notes.push_back(fmt::format("The column \"{}\" was not read: no field of a lot has that name",
                                        excerpt(head)));
        columns.push_back(*std::move(column));
    }
    std::vector<std::string> heads_read;
    for (const auto& head : table.heads)
        heads_read.push_back(excerpt(head));
    for (const auto& [name, field] :
         {std::pair{"lot number", &LotDraft::code}, std::pair{"weight kg", &LotDraft::mass_kg}}) {
        if (!has_column(columns, field))
            refusals.push_back(
                {fmt::format("Column \"{}\"", name),
                 fmt::format("is missing; the heads read are: {}", fmt::join(heads_read, ", ")),
                 "Add it, or name it so in the head line"});
    }
    if (!refusals.empty())
        return refusals;
    return columns;
}

/// ="0012" is how some programs keep a spreadsheet from dropping the zeros.
std::string unwrapped(std::string_view cell) {
    cell = trimmed(cell);
    if (cell.size() > 3 && cell.starts_with("=\"") && cell.ends_with('"'))
        cell = cell.substr(2, cell.size() - 3);
    return std::string(cell);
}

/// 1E+05, 1,2E5: what a spreadsheet makes of a lot number it takes for a figure.
bool looks_bent_by_a_spreadsheet(std::string_view code) {
    const auto mark = code.find_first_of("eE");
    if (mark == std::string_view::npos || mark == 0)
        return false;
    const auto exponent = code.substr(mark + 1);
    const auto is_figure = [](std::string_view text, std::string_view marks) {
        return !text.empty() && std::all_of(text.begin(), text.end(), [&](char c) {
            return (c >= '0' && c <= '9') || marks.find(c) != std::string_view::npos;
        });
    };
    return is_figure(code.substr(0, mark), ".,") && is_figure(exponent, "+-") && exponent.size() <= 4;
}

bool is_nothing(std::string_view cell) {
    const auto dose = read_decimal("", cell);
    return dose && dose->value_or(0) == 0;
}

void put_cell(const CertificateColumn& column, const std::string& cell, LotDraft& draft) {
    if (const auto* plain = std::get_if<FieldColumn>(&column)) {
        draft.*(plain->field) =
            plain->field == &LotDraft::code ? unwrapped(cell) : std::string(trimmed(cell));
        if (!(draft.*(plain->field)).empty())
            draft.*(plain->field) += plain->unit;
    } else if (const auto* results = std::get_if<FigureColumn>(&column)) {
        if (trimmed(cell).empty())
            return;
        draft.figures.push_back(results->figure);
        draft.figures.back().value = trimmed(cell);
    } else if (const auto* added = std::get_if<AdditionColumn>(&column)) {
        if (!is_nothing(cell))
            draft.further_additions.push_back(
                {std::string(key_of(added->substance)), std::string(trimmed(cell))});
    }
}

LotDraft draft_of(const CsvRow& row, const std::vector<CertificateColumn>& columns,
                  const CertificateDefaults& defaults) {
    LotDraft draft;
    draft.mill = defaults.mill;
    draft.flour = defaults.flour;
    draft.place = defaults.place;
    draft.delivered_on = defaults.delivered_on;
    for (std::size_t i = 0; i < columns.size(); ++i)
        put_cell(columns[i], row.fields[i], draft);
    // The one addition that a form has a field for goes there.
    if (!draft.further_additions.empty()) {
        draft.mill_oxidant = draft.further_additions.front().substance;
        draft.mill_oxidant_ppm = draft.further_additions.front().ppm;
        draft.further_additions.erase(draft.further_additions.begin());
    }
    return draft;
}

/// A field under a column that no head names: it would be lost without a word.
Refusals unnamed_fields(const CsvRow& row, const CsvTable& table) {
    Refusals refusals;
    for (std::size_t i = 0; i < table.heads.size(); ++i)
        if (table.heads[i].empty() && !trimmed(row.fields[i]).empty())
            refusals.push_back({fmt::format("Column {}", i + 1),
                                fmt::format("\"{}\" was read under no head", excerpt(row.fields[i])),
                                "Name the column in the head line, or empty it"});
    return refusals;
}

/// Sorts lines into drafts and refused ones; remembers which line brought which lot number.
class LineReader {
public:
    LineReader(const CsvTable& table, const std::vector<CertificateColumn>& columns,
               const CertificateDefaults& defaults, CertificateFile& file)
        : table_(table), columns_(columns), defaults_(defaults), file_(file) {}

    void take(const CsvRow& row) {
        if (row.fields.size() != table_.heads.size()) {
            file_.refused.push_back({row.line, {ragged_row(table_, row)}});
            return;
        }
        Refusals refusals = unnamed_fields(row, table_);
        LotDraft draft = draft_of(row, columns_, defaults_);
        const auto [earlier, is_new] = lines_.try_emplace({draft.mill, draft.code}, row.line);
        if (!is_new && !draft.code.empty())
            refusals.push_back({"Lot number",
                                fmt::format("\"{}\" was read, which line {} has already", excerpt(draft.code),
                                            earlier->second),
                                "One line a lot: take one of the two out"});
        if (looks_bent_by_a_spreadsheet(draft.code))
            file_.notes.push_back(
                fmt::format("Line {}: the lot number \"{}\" looks as if a spreadsheet had turned "
                            "it into a figure; compare it with the label",
                            row.line, draft.code));
        if (refusals.empty())
            file_.lines.push_back({row.line, std::move(draft)});
        else
            file_.refused.push_back({row.line, std::move(refusals)});
    }

private:
    const CsvTable& table_;
    const std::vector<CertificateColumn>& columns_;
    const CertificateDefaults& defaults_;
    CertificateFile& file_;
    std::map<std::pair<std::string, std::string>, std::size_t> lines_;
};

} // namespace

Result<CertificateFile> read_certificates(std::string_view bytes, const CertificateDefaults& defaults) {
    const auto table = read_csv(bytes, RaggedRows::keep);
    if (!table)
        return table.refusals();
    CertificateFile file;
    const auto columns = read_heads(*table, file.notes);
    if (!columns)
        return columns.refusals();
    if (table->rows.empty())
        return Refusal{"", "the file has a head line and no lots", "Choose another file"};
    LineReader reader(*table, *columns, defaults, file);
    for (const auto& row : table->rows)
        reader.take(row);
    if (!table->ends_with_line_break)
        file.notes.push_back(
            "The last line has no line break: if the file was cut off, its last figure may be too");
    return file;
}

CertificateLots accept_certificates(const CertificateFile& file, const IntakeContext& context,
                                    OnRefusedLine policy) {
    CertificateLots result{{}, file.refused, file.notes};
    for (const auto& [line, draft] : file.lines) {
        auto lot = accept(draft, context);
        if (lot)
            result.lots.push_back({line, *std::move(lot)});
        else
            result.refused.push_back({line, lot.refusals()});
    }
    std::sort(result.refused.begin(), result.refused.end(),
              [](const RefusedLine& a, const RefusedLine& b) { return a.line < b.line; });
    if (policy == OnRefusedLine::take_nothing && !result.refused.empty())
        result.lots.clear();
    return result;
}

Refusals with_line_numbers(const std::vector<RefusedLine>& refused) {
    Refusals all;
    for (const auto& [line, reasons] : refused) {
        for (Refusal reason : reasons) {
            const std::string number = fmt::format("Line {}", line);
            if (reason.field != number)
                reason.field = reason.field.empty() ? number : number + ", " + reason.field;
            all.push_back(std::move(reason));
        }
    }
    return all;
}

} // namespace mellowbin
