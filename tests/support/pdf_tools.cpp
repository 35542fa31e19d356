#include "support/pdf_tools.h"

#include "support/temporary_folder.h"

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <memory>
#include <sstream>

namespace mellowbin::tests {
namespace {

std::string output_of(const std::string& command) {
    const auto close = [](std::FILE* pipe) { ::pclose(pipe); };
    const std::unique_ptr<std::FILE, decltype(close)> pipe(::popen(command.c_str(), "r"), close);
    std::string output;
    for (int c; pipe && (c = std::fgetc(pipe.get())) != EOF;)
        output += static_cast<char>(c);
    return output;
}

/// What the program writes of these bytes in a file; in the command, FILE stands for its name.
std::string output_on(const std::string& bytes, const char* name, std::string command) {
    const TemporaryFolder folder;
    const auto file = (folder.path() / name).string();
    std::ofstream(file, std::ios::binary) << bytes;
    command.replace(command.find("FILE"), 4, "'" + file + "'");
    return output_of(command + " 2>/dev/null");
}

} // namespace

bool is_program_there(const char* name) {
    return std::system((std::string("command -v ") + name + " >/dev/null 2>&1").c_str()) == 0;
}

GreyPage page_at(const std::string& pdf, int dots_per_inch) {
    GreyPage page;
    page.pgm =
        output_on(pdf, "page.pdf", "pdftoppm -r " + std::to_string(dots_per_inch) + " -gray -f 1 -l 1 FILE");
    std::istringstream head(page.pgm);
    std::string kind;
    int white = 0;
    head >> kind >> page.width >> page.height >> white;
    const auto begin = static_cast<std::size_t>(head.tellg()) + 1;
    page.grey.assign(page.pgm.begin() + static_cast<std::ptrdiff_t>(begin), page.pgm.end());
    return page;
}

std::string text_of(const std::string& pdf) {
    return output_on(pdf, "page.pdf", "pdftotext -layout -enc UTF-8 FILE -");
}

std::vector<PdfFont> fonts_of(const std::string& pdf) {
    std::istringstream lines(output_on(pdf, "page.pdf", "pdffonts FILE"));
    std::vector<PdfFont> fonts;
    std::string line;
    std::getline(lines, line);
    const auto embedded = line.find(" emb ") + 1; // the column's head
    std::getline(lines, line);
    while (std::getline(lines, line))
        fonts.push_back({line.substr(0, line.find(' ')), line.substr(embedded, 3) == "yes"});
    return fonts;
}

std::vector<std::string> sizes_of(const std::string& pdf) {
    std::istringstream lines(output_on(pdf, "page.pdf", "pdfinfo -l 10000 FILE"));
    std::vector<std::string> sizes;
    for (std::string line; std::getline(lines, line);)
        if (const auto at = line.find("size:"); at != std::string::npos && line.starts_with("Page "))
            sizes.push_back(line.substr(line.find_first_not_of(' ', at + 5)));
    return sizes;
}

std::string seen_by_dmtx(const std::string& pgm) {
    return output_on(pgm, "page.pgm", "dmtxread -G 29 -N1 -m 4000 FILE");
}

} // namespace mellowbin::tests
