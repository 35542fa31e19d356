// The test symbols as the real window draws them, read back from its picture by a reader that knows nothing
// of it.

#include "cli/command_line.h"
#include "exchange/test_scan.h"
#include "support/catch.h"
#include "terminal.h"

#define ZX_USE_UTF8
#include <png.h>

#include <ZXing/ReadBarcode.h>
#include <cstdlib>
#include <string>
#include <vector>

using namespace mellowbin;
using tests::Terminal;

namespace {

struct Picture {
    int width = 0, height = 0;
    std::vector<std::uint8_t> grey;
};

Picture picture_in(const std::string& path) {
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    REQUIRE(png_image_begin_read_from_file(&image, path.c_str()) != 0);
    image.format = PNG_FORMAT_GRAY;
    Picture picture{static_cast<int>(image.width), static_cast<int>(image.height), {}};
    picture.grey.resize(PNG_IMAGE_SIZE(image));
    REQUIRE(png_image_finish_read(&image, nullptr, picture.grey.data(), 0, nullptr) != 0);
    return picture;
}

/// What a reader gives of the only symbol in it, with the identifier in front: of the whole picture, or of
/// its middle, as somebody holds a scanner who sees more than one symbol's worth of signs.
std::string scanned(const Picture& picture) {
    const ZXing::ImageView view(picture.grey.data(), picture.width, picture.height, ZXing::ImageFormat::Lum);
    auto seen = ZXing::ReadBarcodes(view);
    if (seen.size() != 1)
        seen = ZXing::ReadBarcodes(
            view.cropped(picture.width / 4, picture.height / 4, picture.width / 2, picture.height * 3 / 4));
    if (seen.size() != 1)
        return std::to_string(seen.size()) + " symbols were seen";
    const auto& bytes = seen.front().bytes();
    return seen.front().symbologyIdentifier() + std::string(bytes.begin(), bytes.end());
}

} // namespace

TEST_CASE("The test symbols of the real window can be scanned, light and dark, and say that all is well") {
    if (!std::getenv("DISPLAY")) {
        WARN("no display: skipped");
        return;
    }
    Terminal terminal;
    REQUIRE(terminal.on_book({"demo"}) == cli::done);
    // With large text the pages' names stand in a list.
    for (const char* look : {"", " --dark", " --text-size 2 --open Show"})
        for (const auto& symbol : exchange::test_symbols()) {
            const auto name = std::string(exchange::name_of(symbol.kind));
            INFO(name << look);
            const auto file = terminal.file("scanner.png");
            REQUIRE(std::system(("ASAN_OPTIONS=detect_leaks=0 " + std::string(MELLOWBIN_PROGRAM) +
                                 " window --shot " + file + " --screen Settings" + look +
                                 " --open Scanner --open '" + name + "' --today 2026-11-25 --book " +
                                 terminal.book())
                                    .c_str()) == 0);
            const exchange::Arrival arrival{
                scanned(picture_in(file)), exchange::Arrival::Way::port, exchange::Arrival::End::line, {}};
            const auto verdict = exchange::judge_test_scan(arrival, {}, 0.035);
            INFO(arrival.bytes << ": " << verdict.lines.front().words);
            CHECK(verdict.is_well());
            CHECK(verdict.lines.size() == 6);
        }
}
