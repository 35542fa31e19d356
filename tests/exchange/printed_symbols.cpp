#include "printed_symbols.h"

#include "support/temporary_folder.h"

#define ZX_USE_UTF8
#include <ZXing/ReadBarcode.h>
#include <algorithm>
#include <cstdio>
#include <fstream>
#include <memory>

namespace mellowbin::testing {
namespace {

constexpr std::size_t dots_a_module = 4;  // 0.5 mm at 203 dpi
constexpr std::size_t dots_of_bars = 254; // 31.75 mm

std::size_t height_of(const exchange::Symbol& symbol) {
    return symbol.rows == 1 ? dots_of_bars : symbol.rows * dots_a_module;
}

std::string output_of(const std::string& command) {
    const auto close = [](std::FILE* pipe) { ::pclose(pipe); };
    const std::unique_ptr<std::FILE, decltype(close)> pipe(::popen(command.c_str(), "r"), close);
    std::string output;
    for (int c; pipe && (c = std::fgetc(pipe.get())) != EOF;)
        output += static_cast<char>(c);
    return output;
}

std::string between(const std::string& text, const std::string& begin, const std::string& end,
                    std::size_t from) {
    const auto at = text.find(begin, from);
    const auto until = at == std::string::npos ? at : text.find(end, at + begin.size());
    return until == std::string::npos ? "" : text.substr(at + begin.size(), until - at - begin.size());
}

} // namespace

std::string Picture::as_pgm() const {
    return "P5 " + std::to_string(width) + " " + std::to_string(height) + " 255\n" +
           std::string(grey.begin(), grey.end());
}

Picture printed(const std::vector<exchange::Symbol>& symbols) {
    Picture picture;
    constexpr std::size_t most_quiet =
        10 * dots_a_module; // also where the symbol asks for less: paper has it
    for (const auto& symbol : symbols) {
        picture.width = std::max(picture.width, symbol.columns * dots_a_module + 2 * most_quiet);
        picture.height += height_of(symbol) + 2 * most_quiet;
    }
    picture.grey.assign(picture.width * picture.height, 255);
    std::size_t top = most_quiet;
    for (const auto& symbol : symbols) {
        for (std::size_t y = 0; y < height_of(symbol); ++y)
            for (std::size_t x = 0; x < symbol.columns * dots_a_module; ++x)
                if (symbol.is_dark(x / dots_a_module, symbol.rows == 1 ? 0 : y / dots_a_module))
                    picture.grey[(top + y) * picture.width + most_quiet + x] = 0;
        top += height_of(symbol) + 2 * most_quiet;
    }
    return picture;
}

std::vector<Seen> seen_by_zxing(const Picture& picture) {
    const ZXing::ImageView view(picture.grey.data(), static_cast<int>(picture.width),
                                static_cast<int>(picture.height), ZXing::ImageFormat::Lum);
    std::vector<Seen> seen;
    for (const auto& result : ZXing::ReadBarcodes(view)) {
        const auto& bytes = result.bytes();
        seen.push_back({result.symbologyIdentifier(), std::string(bytes.begin(), bytes.end())});
    }
    return seen;
}

std::vector<Seen> seen_by_zbar(const Picture& picture, bool& is_there) {
    is_there = std::system("command -v zbarimg >/dev/null 2>&1") == 0;
    if (!is_there)
        return {};
    const tests::TemporaryFolder folder;
    const auto file = (folder.path() / "symbols.pgm").string();
    std::ofstream(file, std::ios::binary) << picture.as_pgm();
    const auto told = [&](const char* how) {
        return output_of(std::string("zbarimg --quiet --nodbus ") + how + " '" + file + "' 2>/dev/null");
    };
    const auto xml = told("--xml"), lines = told("--raw"); // the one has bytes beyond text encoded
    std::vector<Seen> seen;
    auto from = lines.begin();
    for (auto at = xml.find("<symbol "); at != std::string::npos; at = xml.find("<symbol ", at + 1)) {
        const auto head = between(xml, "<symbol ", ">", at);
        const bool is_gs1 = head.find("modifiers='GS1'") != std::string::npos;
        const bool is_area = head.find("type='QR-Code'") != std::string::npos;
        const auto end = std::find(from, lines.end(), '\n');
        seen.push_back({!is_gs1 ? "" : is_area ? "]Q3" : "]C1", std::string(from, end)});
        from = end == lines.end() ? end : std::next(end);
    }
    return seen;
}

} // namespace mellowbin::testing
