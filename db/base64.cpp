#include "db/base64.h"

#include <array>
#include <cstdint>

namespace mellowbin {
namespace {

constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
constexpr char padding = '=';
constexpr std::uint8_t none = 255;

constexpr std::array<std::uint8_t, 256> values = [] {
    std::array<std::uint8_t, 256> all{};
    all.fill(none);
    for (std::size_t i = 0; i < letters.size(); ++i)
        all[static_cast<unsigned char>(letters[i])] = static_cast<std::uint8_t>(i);
    return all;
}();

std::uint32_t byte_at(std::string_view bytes, std::size_t at) {
    return at < bytes.size() ? static_cast<unsigned char>(bytes[at]) : 0U;
}

} // namespace

std::string to_base64(std::string_view bytes) {
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t at = 0; at < bytes.size(); at += 3) {
        const std::uint32_t three =
            (byte_at(bytes, at) << 16U) | (byte_at(bytes, at + 1) << 8U) | byte_at(bytes, at + 2);
        for (std::size_t i = 0; i < 4; ++i)
            text += at + i > bytes.size() ? padding : letters[(three >> (18U - 6U * i)) & 63U];
    }
    return text;
}

std::optional<std::string> from_base64(std::string_view text) {
    if (text.size() % 4 != 0)
        return {};
    const std::size_t padded = text.ends_with("==") ? 2 : text.ends_with('=') ? 1 : 0;
    std::string bytes;
    bytes.reserve(text.size() / 4 * 3);
    for (std::size_t at = 0; at < text.size(); at += 4) {
        const bool is_last = at + 4 == text.size();
        const std::size_t count = is_last ? 4 - padded : 4;
        std::uint32_t four = 0;
        for (std::size_t i = 0; i < 4; ++i) {
            const auto value = i < count ? values[static_cast<unsigned char>(text[at + i])] : std::uint8_t{0};
            if (value == none)
                return {};
            four = (four << 6U) | value;
        }
        for (std::size_t i = 0; i + 1 < count; ++i)
            bytes += static_cast<char>((four >> (16U - 8U * i)) & 255U);
    }
    return bytes;
}

} // namespace mellowbin
