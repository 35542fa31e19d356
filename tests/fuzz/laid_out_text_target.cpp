#include "exchange/laid_out_text.h"
#include "exchange/page_words.h"
#include "exchange/text_encoding.h"
#include "fuzz/sheet_checks.h"
#include "fuzz/target.h"

namespace mellowbin::fuzz {
namespace {

using namespace exchange;

/// The letters of a text, without blanks and what may part fields.
std::string letters_of(std::string_view text) {
    std::string letters;
    while (!text.empty()) {
        std::size_t blank = 0;
        for (const std::string_view one :
             {" ", "\t", "\v", "\r", "\n", "\f", "|", "\u00A0", "\u2009", "\u202F"})
            if (text.starts_with(one))
                blank = one.size();
        if (blank == 0)
            letters += text.front();
        text.remove_prefix(std::max<std::size_t>(blank, 1));
    }
    return letters;
}

void expect_nothing_lost(const Sheet& sheet) {
    for (const auto& row : sheet.rows) {
        std::string read;
        for (const auto& cell : row.cells)
            read += letters_of(cell.text);
        expect(read == letters_of(row.source), "every letter of a line is in a field of it");
    }
}

void look_at(std::string_view bytes, SheetKind kind) {
    const auto limits = low_limits();
    const auto sheet = read_laid_out_text(bytes, kind, limits);
    if (!sheet)
        return expect_well_said(sheet.refusals(), bytes);
    expect_sound(*sheet, limits);
    for (const auto& row : sheet->rows)
        expect(row.page <= limits.pages, "a text has no more pages than may be");
    if (sheet->kind != SheetKind::text) // whose fields may stand in quotation marks
        expect_nothing_lost(*sheet);
}

void take(std::string_view bytes) {
    const auto text = as_utf8(bytes);
    if (text)
        expect_text(*text);
    else
        expect_well_said(text.refusals(), bytes);
    look_at(bytes, SheetKind::text);
    look_at(bytes, SheetKind::pages);
    // As the words of a PDF with their places: no fuzzer guesses the heads.
    look_at(
        "level\tpage_num\tpar_num\tblock_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\ttext\n" +
            std::string(bytes),
        SheetKind::pages);
}

const Registered target{"laid_out_text", take};

} // namespace
} // namespace mellowbin::fuzz
