#include "support/plain_pdf.h"

#include <fmt/format.h>

namespace mellowbin::testing {
namespace {

constexpr double page_height = 842;

std::string escaped(const std::string& text) {
    std::string out;
    for (const char c : text) {
        if (c == '(' || c == ')' || c == '\\')
            out += '\\';
        out += c;
    }
    return out;
}

/// Objects 1 to n with their table of places (ISO 32000-1, 7.5).
std::string file_of(const std::vector<std::string>& objects) {
    std::string file = "%PDF-1.4\n";
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < objects.size(); ++i) {
        places.push_back(file.size());
        file += fmt::format("{} 0 obj\n{}\nendobj\n", i + 1, objects[i]);
    }
    const auto table = file.size();
    file += fmt::format("xref\n0 {}\n0000000000 65535 f \n", objects.size() + 1);
    for (const auto place : places)
        file += fmt::format("{:010} 00000 n \n", place);
    return file + fmt::format("trailer\n<< /Size {} /Root 1 0 R >>\nstartxref\n{}\n%%EOF\n",
                              objects.size() + 1, table);
}

std::string of_pages(const std::vector<std::string>& contents, double width) {
    std::vector<std::string> objects(3);
    std::string kids;
    for (const auto& content : contents) {
        const auto page = objects.size() + 1;
        kids += fmt::format("{} 0 R ", page);
        objects.push_back(fmt::format(
            "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {} {}] /Resources << /Font << /F 3 0 R >> >> "
            "/Contents {} 0 R >>",
            width, page_height, page + 1));
        objects.push_back(fmt::format("<< /Length {} >>\nstream\n{}\nendstream", content.size(), content));
    }
    objects[0] = "<< /Type /Catalog /Pages 2 0 R >>";
    objects[1] = fmt::format("<< /Type /Pages /Kids [{}] /Count {} >>", kids, contents.size());
    objects[2] = "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>";
    return file_of(objects);
}

} // namespace

std::string plain_pdf(const std::vector<std::vector<PrintedText>>& pages, double width, double size) {
    std::vector<std::string> contents;
    for (const auto& page : pages) {
        std::string content;
        for (const auto& [left, down, text] : page)
            content += fmt::format("BT /F {} Tf {} {} Td ({}) Tj ET\n", size, left, page_height - down,
                                   escaped(text));
        contents.push_back(std::move(content));
    }
    return of_pages(contents, width);
}

std::string pdf_without_text() { return of_pages({"100 100 m 200 200 l S"}, 595); }

} // namespace mellowbin::testing
