#include "exchange/xlsx.h"
#include "fuzz/sheet_checks.h"
#include "fuzz/target.h"
#include "support/packed_parts.h"

namespace mellowbin::fuzz {
namespace {

using namespace exchange;

void look_at(std::string_view bytes) {
    const auto limits = low_limits();
    const auto sheets = read_xlsx(bytes, limits);
    if (!sheets)
        return expect_well_said(sheets.refusals(), bytes);
    expect(!sheets->empty(), "a spreadsheet that is read has a sheet");
    for (const auto& sheet : *sheets) {
        expect(sheet.kind == SheetKind::spreadsheet, "a spreadsheet's sheets are of one");
        expect_sound(sheet, limits);
    }
}

/// A spreadsheet of these rows, formats and texts: no fuzzer packs a file.
std::string around(std::string_view rows, std::string_view formats, std::string_view texts) {
    const auto document = [](const std::string& element, std::string_view inside) {
        return "<" + element + " xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\">" +
               std::string(inside) + "</" + element + ">";
    };
    auto parts = testing::spreadsheet_parts(rows);
    for (auto& part : parts) {
        part.is_deflated = false;
        if (part.name == "xl/_rels/workbook.xml.rels")
            for (const std::string kind : {"styles", "sharedStrings"})
                part.content.insert(part.content.rfind("</"),
                                    "<Relationship Id=\"" + kind +
                                        "\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/"
                                        "relationships/" +
                                        kind + "\" Target=\"" + kind + ".xml\"/>");
    }
    parts.push_back({"xl/styles.xml", document("styleSheet", formats), false});
    parts.push_back({"xl/sharedStrings.xml", document("sst", texts), false});
    return testing::packed(parts);
}

void take(std::string_view bytes) {
    look_at(bytes);
    constexpr std::string_view between = "\n=====\n";
    std::string_view parts[3];
    for (auto& part : parts) {
        const auto end = bytes.find(between);
        part = bytes.substr(0, end);
        bytes.remove_prefix(end == std::string_view::npos ? bytes.size() : end + between.size());
    }
    look_at(around(parts[0], parts[1], parts[2]));
}

const Registered target{"xlsx", take};

} // namespace
} // namespace mellowbin::fuzz
