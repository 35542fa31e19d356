#include "exchange/xlsx.h"

#include "core/typed_text.h"
#include "exchange/packed_file.h"
#include "exchange/xlsx_parts.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::exchange {
namespace {

/// Turns what reads a part into one that says which part it was.
Refusals in_part(Refusals refusals, std::string_view part) {
    for (auto& refusal : refusals)
        refusal.field =
            refusal.field.empty() ? std::string(part) : fmt::format("{}, {}", part, refusal.field);
    return refusals;
}

Refusal no_spreadsheet(std::string what) {
    return {"", "the file is packed as a spreadsheet is, but " + std::move(what),
            "Save it again as XLSX, or paste the table as text"};
}

/// "xl/worksheets/sheet1.xml" of a target as a part in "xl/" names it.
std::string path_of(std::string_view folder, std::string_view target) {
    if (target.starts_with('/'))
        return std::string(target.substr(1));
    std::string path(folder);
    for (; target.starts_with("../"); target.remove_prefix(3)) {
        if (path.ends_with('/'))
            path.pop_back();
        path.resize(path.find_last_of('/') + 1); // npos + 1 is 0
    }
    return path + std::string(target);
}

class XlsxReader {
public:
    XlsxReader(const PackedFile& file, const SheetLimits& limits) : file_(file), cells_left_(limits.cells) {
        beside_.limits = limits;
    }

    Result<std::vector<Sheet>> read() {
        const std::string book = workbook_path();
        const auto folder_ends = book.find_last_of('/') + 1;
        folder_ = book.substr(0, folder_ends);
        const auto document = content(book);
        if (!document)
            return document.refusals();
        auto workbook = read_xlsx_workbook(*document);
        if (!workbook)
            return in_part(workbook.refusals(), book);
        const auto relations = relations_of(folder_ + "_rels/" + book.substr(folder_ends) + ".rels");
        if (!relations)
            return relations.refusals();
        beside_.days = workbook->days;
        if (auto refusals = read_beside(*relations); !refusals.empty())
            return refusals;
        return sheets(*workbook, *relations);
    }

private:
    using Relations = std::map<std::string, XlsxRelation>;

    [[nodiscard]] Result<std::string> content(const std::string& part) const {
        const auto* found = file_.find(part);
        if (!found)
            return no_spreadsheet(fmt::format("its part {} is missing", excerpt(part)));
        return file_.unpacked(*found);
    }

    [[nodiscard]] Result<Relations> relations_of(const std::string& part) const {
        const auto document = content(part);
        if (!document)
            return document.refusals();
        auto relations = read_xlsx_relations(*document);
        if (!relations)
            return in_part(relations.refusals(), part);
        return relations;
    }

    [[nodiscard]] std::string workbook_path() const {
        if (const auto relations = relations_of("_rels/.rels"))
            for (const auto& [name, relation] : *relations)
                if (relation.kind == "officeDocument")
                    return path_of("", relation.target);
        return "xl/workbook.xml";
    }

    Refusals read_beside(const Relations& relations) {
        for (const auto& [name, relation] : relations) {
            const auto part = path_of(folder_, relation.target);
            if (relation.kind != "sharedStrings" && relation.kind != "styles")
                continue;
            const auto document = content(part);
            if (!document)
                return document.refusals();
            if (relation.kind == "sharedStrings") {
                auto strings = read_xlsx_strings(*document, beside_.limits.cells);
                if (!strings)
                    return in_part(strings.refusals(), part);
                beside_.strings = *std::move(strings);
            } else {
                auto formats = read_xlsx_formats(*document);
                if (!formats)
                    return in_part(formats.refusals(), part);
                beside_.formats = *std::move(formats);
            }
        }
        return {};
    }

    Result<std::vector<Sheet>> sheets(const XlsxWorkbook& workbook, const Relations& relations) {
        std::vector<Sheet> read;
        std::vector<std::string> notes;
        for (const auto& named : workbook.sheets) {
            const auto relation = relations.find(named.relation);
            if (relation == relations.end() || relation->second.kind != "worksheet")
                continue; // a chart by itself
            if (named.is_hidden) {
                notes.push_back(
                    fmt::format("The sheet \"{}\" is hidden and was not read", excerpt(named.name)));
                continue;
            }
            const auto document = content(path_of(folder_, relation->second.target));
            if (!document)
                return document.refusals();
            auto sheet = read_xlsx_sheet(*document, beside_, cells_left_);
            if (!sheet)
                return in_part(sheet.refusals(), fmt::format("Sheet \"{}\"", excerpt(named.name)));
            sheet->name = workbook.sheets.size() > 1 ? named.name : "";
            read.push_back(*std::move(sheet));
        }
        if (read.empty())
            return no_spreadsheet("no sheet that can be seen is in it");
        read.front().notes.insert(read.front().notes.begin(), notes.begin(), notes.end());
        return read;
    }

    const PackedFile& file_;
    XlsxBeside beside_;
    std::string folder_;
    std::size_t cells_left_;
};

} // namespace

Result<std::vector<Sheet>> read_xlsx(std::string_view bytes, const SheetLimits& limits) {
    const auto file = PackedFile::open(bytes, limits);
    if (!file)
        return file.refusals();
    return XlsxReader(*file, limits).read();
}

} // namespace mellowbin::exchange
