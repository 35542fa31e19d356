#include "exchange/packed_file.h"

#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>

#define ZLIB_CONST // or its input is not const
#include <zlib.h>

namespace mellowbin::exchange {
namespace {

constexpr std::string_view part_mark = "PK\x03\x04";
constexpr std::string_view directory_mark = "PK\x01\x02";
constexpr std::string_view end_mark = "PK\x05\x06";
constexpr std::size_t part_header = 30;
constexpr std::size_t directory_header = 46;
constexpr std::size_t end_length = 22;
constexpr std::size_t longest_comment = 65'535;
constexpr std::size_t kept_in_zip64 = 0xFFFF'FFFF;
constexpr int as_it_is = 0;
constexpr int deflated = 8;
/// Below this a part may be packed as tightly as it likes.
constexpr std::size_t ratio_counts_from = 1'000'000;

Refusal torn(std::string what) { return {"", "the file is torn: " + std::move(what), "Get it again, whole"}; }

Refusal too_big_unpacked(std::string what) {
    return {"", std::move(what),
            "Save only the sheet with the certificate as a new file, or paste the table as text"};
}

/// Little-endian figures at places within the bytes; what would lie beyond their end is refused before.
class Figures {
public:
    explicit Figures(std::string_view bytes) : bytes_(bytes) {}
    [[nodiscard]] bool has(std::size_t at, std::size_t length) const {
        return at <= bytes_.size() && length <= bytes_.size() - at;
    }
    [[nodiscard]] std::size_t two(std::size_t at) const { return figure(at, 2); }
    [[nodiscard]] std::size_t four(std::size_t at) const { return figure(at, 4); }

private:
    [[nodiscard]] std::size_t figure(std::size_t at, std::size_t bytes) const {
        std::size_t value = 0;
        for (std::size_t i = bytes; i-- > 0;)
            value = value << 8U | static_cast<unsigned char>(bytes_[at + i]);
        return value;
    }
    std::string_view bytes_;
};

/// Where the directory's end stands: the last such mark whose comment ends with the file.
std::optional<std::size_t> end_of_directory(std::string_view bytes) {
    if (bytes.size() < end_length)
        return {};
    const std::size_t first = bytes.size() - std::min(bytes.size(), end_length + longest_comment);
    for (std::size_t at = bytes.size() - end_length + 1; at-- > first;)
        if (bytes.substr(at).starts_with(end_mark) &&
            at + end_length + Figures(bytes).two(at + 20) == bytes.size())
            return at;
    return {};
}

Refusals faults_of(const PackedPart& part, std::size_t flags, const SheetLimits& limits) {
    const std::string name = excerpt(part.name);
    if ((flags & 1U) != 0)
        return {{"", "the file is encrypted", "Save it again without a password"}};
    if (part.method != as_it_is && part.method != deflated)
        return {{"",
                 fmt::format("its part {} is packed in a way ({}) that spreadsheets do not use", name,
                             part.method),
                 "Save it again as XLSX"}};
    if (part.packed_bytes == kept_in_zip64 || part.unpacked_bytes == kept_in_zip64)
        return {too_big_unpacked(fmt::format("its part {} is larger than 4 GB", name))};
    if (part.method == as_it_is && part.packed_bytes != part.unpacked_bytes)
        return {torn(fmt::format("the length of its part {} stands there twice and differs", name))};
    if (part.unpacked_bytes > ratio_counts_from &&
        part.unpacked_bytes / std::max<std::size_t>(part.packed_bytes, 1) > limits.unpacked_ratio)
        return {too_big_unpacked(
            fmt::format("its part {} would unpack from {} to {} bytes, which no certificate does", name,
                        part.packed_bytes, part.unpacked_bytes))};
    return {};
}

/// Parts that share bytes are how a small file unpacks without end.
bool lie_over_each_other(std::vector<PackedPart> parts) {
    std::sort(parts.begin(), parts.end(),
              [](const PackedPart& a, const PackedPart& b) { return a.header_at < b.header_at; });
    for (std::size_t i = 1; i < parts.size(); ++i)
        if (parts[i - 1].header_at + part_header + parts[i - 1].packed_bytes > parts[i].header_at)
            return true;
    return false;
}

/// One inflation, ended however the scope is left.
class Inflation {
public:
    Inflation() { is_begun_ = inflateInit2(&stream_, -MAX_WBITS) == Z_OK; }
    ~Inflation() {
        if (is_begun_)
            inflateEnd(&stream_);
    }
    Inflation(const Inflation&) = delete;
    Inflation& operator=(const Inflation&) = delete;

    /// Whether the packed bytes come to just as many as `into` holds.
    bool fills(std::string_view packed, std::string& into) {
        if (!is_begun_)
            return false;
        char one_more = 0; // an empty part needs a place to write to, too
        stream_.next_in = reinterpret_cast<const Bytef*>(packed.data());
        stream_.avail_in = static_cast<uInt>(packed.size());
        stream_.next_out = reinterpret_cast<Bytef*>(into.empty() ? &one_more : into.data());
        stream_.avail_out = static_cast<uInt>(into.size());
        return inflate(&stream_, Z_FINISH) == Z_STREAM_END && stream_.avail_out == 0;
    }

private:
    z_stream stream_{};
    bool is_begun_ = false;
};

} // namespace

bool looks_packed(std::string_view bytes) {
    return bytes.starts_with(part_mark) || bytes.starts_with(end_mark);
}

Result<PackedFile> PackedFile::open(std::string_view bytes, const SheetLimits& limits) {
    if (bytes.size() > limits.file_bytes)
        return Refusal{
            "", fmt::format("the file has {} bytes; {} at most are read", bytes.size(), limits.file_bytes),
            "Save only the sheet with the certificate as a new file"};
    const auto end = end_of_directory(bytes);
    if (!end)
        return torn("the list of its parts, which stands at its end, is missing");
    const Figures figures(bytes);
    PackedFile file;
    file.bytes_ = bytes;
    const std::size_t count = figures.two(*end + 10);
    std::size_t at = figures.four(*end + 16);
    std::size_t in_sum = 0;
    for (std::size_t i = 0; i < count; ++i) {
        if (!figures.has(at, directory_header) || !bytes.substr(at).starts_with(directory_mark))
            return torn(fmt::format("the list of its parts ends after {} of {}", i, count));
        const std::size_t name_length = figures.two(at + 28);
        if (!figures.has(at + directory_header, name_length))
            return torn("the list of its parts ends within a name");
        PackedPart part{std::string(bytes.substr(at + directory_header, name_length)),
                        figures.four(at + 20),
                        figures.four(at + 24),
                        static_cast<std::uint32_t>(figures.four(at + 16)),
                        static_cast<int>(figures.two(at + 10)),
                        figures.four(at + 42)};
        if (auto faults = faults_of(part, figures.two(at + 8), limits); !faults.empty())
            return faults;
        if (!figures.has(part.header_at, part_header + part.packed_bytes))
            return torn(fmt::format("its part {} lies beyond its end", excerpt(part.name)));
        in_sum += part.unpacked_bytes;
        at += directory_header + name_length + figures.two(at + 30) + figures.two(at + 32);
        file.parts_.push_back(std::move(part));
    }
    if (in_sum > limits.unpacked_bytes)
        return too_big_unpacked(fmt::format("the file would unpack to {} bytes; {} at most are read", in_sum,
                                            limits.unpacked_bytes));
    if (lie_over_each_other(file.parts_))
        return too_big_unpacked(
            "parts of the file lie over each other, as in no file that a spreadsheet program writes");
    return file;
}

const PackedPart* PackedFile::find(std::string_view name) const {
    const auto at =
        std::find_if(parts_.begin(), parts_.end(), [&](const PackedPart& p) { return p.name == name; });
    return at == parts_.end() ? nullptr : &*at;
}

Result<std::string> PackedFile::unpacked(const PackedPart& part) const {
    const Figures figures(bytes_);
    const auto is_torn = [&] {
        return torn(fmt::format("its part {} cannot be unpacked", excerpt(part.name)));
    };
    if (!bytes_.substr(part.header_at).starts_with(part_mark))
        return is_torn();
    const std::size_t begin =
        part.header_at + part_header + figures.two(part.header_at + 26) + figures.two(part.header_at + 28);
    if (!figures.has(begin, part.packed_bytes))
        return is_torn();
    const auto packed = bytes_.substr(begin, part.packed_bytes);
    std::string content(part.unpacked_bytes, '\0');
    if (part.method == as_it_is)
        content = packed;
    else if (!Inflation().fills(packed, content))
        return is_torn();
    const auto check =
        crc32(0, reinterpret_cast<const Bytef*>(content.data()), static_cast<uInt>(content.size()));
    if (check != part.check)
        return torn(fmt::format("the check sum of its part {} is not the one that was written with it",
                                excerpt(part.name)));
    return content;
}

} // namespace mellowbin::exchange
