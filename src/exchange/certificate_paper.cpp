#include "exchange/certificate_paper.h"

#include "exchange/laid_out_text.h"
#include "exchange/packed_file.h"
#include "exchange/xlsx.h"

#include <algorithm>
#include <array>

namespace mellowbin::exchange {
namespace {

/// How files of the old binary form begin, and locked ones of the new, too.
constexpr std::string_view compound_file = "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1";
/// "EncryptedPackage" in UTF-16: the part of a compound file that holds a locked XLSX.
constexpr std::string_view locked_part{"E\0n\0c\0r\0y\0p\0t\0e\0d\0P\0a\0c\0k\0a\0g\0e\0", 32};
constexpr std::array<std::string_view, 6> pictures{"\x89PNG", "\xFF\xD8\xFF", "GIF8", "BM", "II*", "MM\x00*"};

/// A PDF may have up to 1024 bytes of something else in front (ISO 32000-1, annex H.3).
bool is_pdf(std::string_view bytes) { return bytes.substr(0, 1024).find("%PDF-") != std::string_view::npos; }

bool is_picture(std::string_view bytes) {
    return std::any_of(pictures.begin(), pictures.end(), [&](std::string_view mark) {
        return bytes.starts_with(mark) && bytes.find('\0') != std::string_view::npos;
    });
}

} // namespace

PaperKind paper_kind(std::string_view bytes) {
    if (looks_packed(bytes))
        return PaperKind::spreadsheet;
    if (bytes.starts_with(compound_file))
        return PaperKind::old_spreadsheet;
    if (is_picture(bytes))
        return PaperKind::picture;
    return is_pdf(bytes) ? PaperKind::pdf : PaperKind::text;
}

std::string_view in_words(PaperKind kind) {
    switch (kind) {
    case PaperKind::spreadsheet:
        return "a spreadsheet (XLSX)";
    case PaperKind::old_spreadsheet:
        return "a spreadsheet of the old form (XLS)";
    case PaperKind::pdf:
        return "a PDF";
    case PaperKind::picture:
        return "a picture";
    case PaperKind::text:
        return "text";
    }
    return "";
}

Result<std::vector<Sheet>> read_paper(std::string_view bytes, const SheetLimits& limits) {
    switch (paper_kind(bytes)) {
    case PaperKind::spreadsheet:
        return read_xlsx(bytes, limits);
    case PaperKind::old_spreadsheet:
        if (bytes.find(locked_part) != std::string_view::npos)
            return Refusal{"", "the file is locked with a password", "Save it again without a password"};
        return Refusal{
            "", "the file is a spreadsheet of the old form (XLS), which is not read",
            "Open it in a spreadsheet program and save it as XLSX, or copy the table and paste it"};
    case PaperKind::pdf:
        return Refusal{"", "the file is a PDF", "It is turned into text first"};
    case PaperKind::picture:
        return Refusal{"", "the file is a picture, which is not read",
                       "Ask the mill for the certificate as PDF, XLSX or CSV, or type its figures"};
    case PaperKind::text:
        break;
    }
    auto sheet = read_laid_out_text(bytes, SheetKind::text, limits);
    if (!sheet)
        return sheet.refusals();
    if (sheet->rows.empty())
        return Refusal{"", "the file is empty", "Choose another file"};
    return std::vector<Sheet>{*std::move(sheet)};
}

} // namespace mellowbin::exchange
