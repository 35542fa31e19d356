#include "support/packed_parts.h"

#include <stdexcept>
#include <zlib.h>

namespace mellowbin::testing {
namespace {

void put(std::string& to, std::uint64_t value, int bytes) {
    for (int i = 0; i < bytes; ++i)
        to += static_cast<char>(i < 8 ? value >> (8 * i) & 0xFFU : 0);
}

std::string deflated(const std::string& content) {
    z_stream stream{};
    if (deflateInit2(&stream, Z_BEST_SPEED, Z_DEFLATED, -MAX_WBITS, 8, Z_DEFAULT_STRATEGY) != Z_OK)
        throw std::runtime_error("zlib does not begin");
    std::string packed(deflateBound(&stream, static_cast<uLong>(content.size())), '\0');
    std::string from = content;
    stream.next_in = reinterpret_cast<Bytef*>(from.data());
    stream.avail_in = static_cast<uInt>(from.size());
    stream.next_out = reinterpret_cast<Bytef*>(packed.data());
    stream.avail_out = static_cast<uInt>(packed.size());
    const bool is_done = deflate(&stream, Z_FINISH) == Z_STREAM_END;
    packed.resize(stream.total_out);
    deflateEnd(&stream);
    if (!is_done)
        throw std::runtime_error("zlib does not end");
    return packed;
}

/// What the two headers of a part have in common.
std::string common(const PackedPartMade& part, const std::string& bytes) {
    const auto check =
        crc32(0, reinterpret_cast<const Bytef*>(part.content.data()), static_cast<uInt>(part.content.size()));
    std::string head;
    put(head, 20, 2);
    put(head, part.flags, 2);
    put(head, part.method.value_or(part.is_deflated ? 8 : 0), 2);
    put(head, 0, 4); // time and day
    put(head, part.stated_check.value_or(static_cast<std::uint32_t>(check)), 4);
    put(head, bytes.size(), 4);
    put(head, part.stated_bytes.value_or(static_cast<std::uint32_t>(part.content.size())), 4);
    put(head, part.name.size(), 2);
    put(head, 0, 2);
    return head;
}

} // namespace

std::string packed(const std::vector<PackedPartMade>& parts) {
    std::string file, directory;
    std::vector<std::size_t> places;
    for (const auto& part : parts) {
        const auto bytes = part.is_deflated ? deflated(part.content) : part.content;
        places.push_back(part.same_bytes_as ? places.at(*part.same_bytes_as) : file.size());
        if (!part.same_bytes_as)
            file += "PK\x03\x04" + common(part, bytes) + part.name + bytes;
        directory += std::string("PK\x01\x02") + std::string("\x14\0", 2) + common(part, bytes);
        put(directory, 0, 2 + 2 + 2 + 4); // comment, disk, attributes
        put(directory, places.back(), 4);
        directory += part.name;
    }
    const auto at = file.size();
    file += directory + "PK\x05\x06";
    put(file, 0, 4);
    put(file, parts.size(), 2);
    put(file, parts.size(), 2);
    put(file, directory.size(), 4);
    put(file, at, 4);
    put(file, 0, 2);
    return file;
}

std::vector<PackedPartMade> spreadsheet_parts(std::string_view rows) {
    const std::string head = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    const std::string types = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    const std::string main =
        "xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\" xmlns:r=\"" + types + "\"";
    const auto relation = [&](const std::string& id, const std::string& type, const std::string& target) {
        return "<Relationship Id=\"" + id + "\" Type=\"" + types + "/" + type + "\" Target=\"" + target +
               "\"/>";
    };
    const auto relations = [&](const std::string& inside) {
        return head +
               "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">" +
               inside + "</Relationships>";
    };
    return {
        {"_rels/.rels", relations(relation("rId1", "officeDocument", "xl/workbook.xml"))},
        {"xl/workbook.xml",
         head + "<workbook " + main +
             "><sheets><sheet name=\"Lots\" sheetId=\"7\" r:id=\"rId1\"/></sheets></workbook>"},
        {"xl/_rels/workbook.xml.rels", relations(relation("rId1", "worksheet", "worksheets/sheet1.xml"))},
        {"xl/worksheets/sheet1.xml",
         head + "<worksheet " + main + "><sheetData>" + std::string(rows) + "</sheetData></worksheet>"},
    };
}

std::string spreadsheet(std::string_view rows) { return packed(spreadsheet_parts(rows)); }

} // namespace mellowbin::testing
