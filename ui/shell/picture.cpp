#include "ui/shell/picture.h"

#include <png.h>

#include <stdexcept>
#include <string>

namespace mellowbin::ui {

void write_png(const std::filesystem::path& path, int width, int height,
               const std::vector<std::uint8_t>& rows_upwards) {
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    image.width = static_cast<png_uint_32>(width);
    image.height = static_cast<png_uint_32>(height);
    image.format = PNG_FORMAT_RGB;
    if (!png_image_write_to_file(&image, path.c_str(), 0, rows_upwards.data(), -width * 3, nullptr))
        throw std::runtime_error("The picture " + path.string() + " could not be written: " + image.message);
}

} // namespace mellowbin::ui
