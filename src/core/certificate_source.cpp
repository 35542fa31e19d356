#include "core/certificate_source.h"

#include <fmt/format.h>

#include <charconv>

namespace mellowbin {
namespace {

constexpr std::string_view file_begins = "file ";
constexpr std::size_t print_size = 16;

template <class Number> Number whole_number(std::string_view text, int base) {
    Number number{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number, base);
    return error == std::errc{} && end == text.data() + text.size() ? number : Number{};
}

} // namespace

std::string as_text(const SourceName& source) {
    if (source.kept.is_known())
        return std::to_string(source.kept.number());
    return source.path.empty() ? std::string()
                               : fmt::format("{}{:016x} {}", file_begins, source.fingerprint, source.path);
}

SourceName source_named(std::string_view text) {
    if (!text.starts_with(file_begins))
        return {CertificateSourceId{whole_number<std::int64_t>(text, 10)}, {}, 0};
    text.remove_prefix(file_begins.size());
    if (text.size() <= print_size + 1 || text[print_size] != ' ')
        return {};
    return {{},
            std::string(text.substr(print_size + 1)),
            whole_number<std::uint64_t>(text.substr(0, print_size), 16)};
}

} // namespace mellowbin
