#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace mellowbin::tests {

/// CRC-32 as packed files have it (ISO 3309).
inline std::uint32_t crc32_of(std::string_view bytes) {
    std::uint32_t crc = 0xFFFFFFFFU;
    for (const char byte : bytes) {
        crc ^= static_cast<unsigned char>(byte);
        for (int bit = 0; bit < 8; ++bit)
            crc = (crc >> 1U) ^ ((crc & 1U) != 0 ? 0xEDB88320U : 0U);
    }
    return ~crc;
}

/// A packed file whose parts are stored as they are.
inline std::string stored_zip(const std::vector<std::pair<std::string, std::string>>& parts) {
    std::string file, directory;
    const auto number = [](std::string& to, std::uint32_t value, int bytes) {
        for (int i = 0; i < bytes; ++i)
            to += static_cast<char>((value >> (8 * i)) & 0xFFU);
    };
    for (const auto& [name, bytes] : parts) {
        const auto at = static_cast<std::uint32_t>(file.size());
        const auto size = static_cast<std::uint32_t>(bytes.size());
        std::string head; // from the version needed to the length of the extra field
        number(head, 20, 2);
        number(head, 0, 2);
        number(head, 0, 2);
        number(head, 0, 2);
        number(head, 0x21, 2); // 1 January 1980
        number(head, crc32_of(bytes), 4);
        number(head, size, 4);
        number(head, size, 4);
        number(head, static_cast<std::uint32_t>(name.size()), 2);
        number(head, 0, 2);
        file += "PK\x03\x04" + head + name + bytes;
        directory += "PK\x01\x02";
        number(directory, 20, 2);
        directory += head;
        number(directory, 0, 2);
        number(directory, 0, 2);
        number(directory, 0, 2);
        number(directory, 0, 4);
        number(directory, at, 4);
        directory += name;
    }
    const auto begins = static_cast<std::uint32_t>(file.size());
    file += directory + "PK\x05\x06";
    number(file, 0, 4);
    number(file, static_cast<std::uint32_t>(parts.size()), 2);
    number(file, static_cast<std::uint32_t>(parts.size()), 2);
    number(file, static_cast<std::uint32_t>(directory.size()), 4);
    number(file, begins, 4);
    number(file, 0, 2);
    return file;
}

/// A spreadsheet of one sheet, by the least that the form asks for (ECMA-376). A cell that begins with "=" is
/// a formula without a saved result, one that is a number a number, all else text.
inline std::string small_workbook(const std::vector<std::vector<std::string>>& rows) {
    std::string cells;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        cells += "<row r=\"" + std::to_string(r + 1) + "\">";
        for (std::size_t c = 0; c < rows[r].size(); ++c) {
            const auto& text = rows[r][c];
            const auto at = std::string(1, static_cast<char>('A' + c)) + std::to_string(r + 1);
            if (text.starts_with('='))
                cells += "<c r=\"" + at + "\"><f>" + text.substr(1) + "</f></c>";
            else if (!text.empty() && text.find_first_not_of("0123456789.") == std::string::npos)
                cells += "<c r=\"" + at + "\"><v>" + text + "</v></c>";
            else
                cells += "<c r=\"" + at + "\" t=\"inlineStr\"><is><t>" + text + "</t></is></c>";
        }
        cells += "</row>";
    }
    const std::string xml = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n";
    const std::string office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    const std::string packages = "http://schemas.openxmlformats.org/package/2006/";
    const std::string main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    const std::string types = "application/vnd.openxmlformats-officedocument.spreadsheetml.";
    return stored_zip(
        {{"[Content_Types].xml",
          xml + "<Types xmlns=\"" + packages +
              "content-types\"><Default Extension=\"rels\" "
              "ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>"
              "<Override PartName=\"/xl/workbook.xml\" ContentType=\"" +
              types + "sheet.main+xml\"/><Override PartName=\"/xl/worksheets/sheet1.xml\" ContentType=\"" +
              types + "worksheet+xml\"/></Types>"},
         {"_rels/.rels", xml + "<Relationships xmlns=\"" + packages +
                             "relationships\"><Relationship Id=\"rId1\" Type=\"" + office +
                             "/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>"},
         {"xl/workbook.xml", xml + "<workbook xmlns=\"" + main + "\" xmlns:r=\"" + office +
                                 "\"><sheets><sheet name=\"Lots\" sheetId=\"1\" r:id=\"rId1\"/></sheets>"
                                 "</workbook>"},
         {"xl/_rels/workbook.xml.rels",
          xml + "<Relationships xmlns=\"" + packages + "relationships\"><Relationship Id=\"rId1\" Type=\"" +
              office + "/worksheet\" Target=\"worksheets/sheet1.xml\"/></Relationships>"},
         {"xl/worksheets/sheet1.xml",
          xml + "<worksheet xmlns=\"" + main + "\"><sheetData>" + cells + "</sheetData></worksheet>"}});
}

} // namespace mellowbin::tests
