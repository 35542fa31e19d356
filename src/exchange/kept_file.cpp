#include "exchange/kept_file.h"

#include "core/typed_text.h"

#include <date/date.h>
#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <optional>
#include <sstream>
#include <utility>

namespace mellowbin::exchange {
namespace {

constexpr std::string_view head = "mellowbin kept work ";
constexpr std::string_view version = kept_form;

/// On one line, without the tabs that part it.
std::string escaped(std::string_view text) {
    std::string line;
    for (const char c : text) {
        switch (c) {
        case '\\':
            line += "\\\\";
            break;
        case '\n':
            line += "\\n";
            break;
        case '\t':
            line += "\\t";
            break;
        default:
            line += c;
        }
    }
    return line;
}

std::string unescaped(std::string_view line) {
    std::string text;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] != '\\' || i + 1 == line.size()) {
            text += line[i];
            continue;
        }
        const char next = line[++i];
        text += next == 'n' ? '\n' : next == 't' ? '\t' : next;
    }
    return text;
}

/// Looked at before it is parsed: what is no time at all ends as no number in the parser's hands.
bool has_form_of_instant(std::string_view text) {
    constexpr std::string_view form = "0000-00-00T00:00:00Z";
    const auto fits = [](char c, char as) { return as == '0' ? c >= '0' && c <= '9' : c == as; };
    return std::equal(text.begin(), text.end(), form.begin(), form.end(), fits);
}

std::optional<Instant> instant_of(const std::string& text) {
    if (!has_form_of_instant(text))
        return {};
    std::istringstream in(text);
    Instant instant;
    in >> date::parse("%FT%TZ", instant);
    if (in.fail())
        return {};
    return instant;
}

Refusal refusal(std::string what) {
    return {"Kept work", std::move(what), "It is put aside, and the work goes on without it"};
}

std::string_view take_line(std::string_view& rest) {
    const auto end = rest.find('\n');
    const auto line = rest.substr(0, end);
    rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
    return line;
}

std::string_view take_word(std::string_view& line) {
    const auto end = line.find('\t');
    const auto word = line.substr(0, end);
    line.remove_prefix(end == std::string_view::npos ? line.size() : end + 1);
    return word;
}

/// One line after the head; false for one that this form does not have.
bool take_in(KeptFile& file, std::string_view line) {
    const auto what = take_word(line);
    if (what == "book") {
        file.book = unescaped(line);
        return true;
    }
    if (what == "begun" || what == "kept") {
        const auto at = instant_of(std::string(line));
        (what == "begun" ? file.begun_at : file.kept_at) = at.value_or(Instant{});
        return at.has_value();
    }
    if (what == "says") {
        file.text.begun.push_back(unescaped(line));
        return true;
    }
    if (what != "field")
        return false;
    auto path = unescaped(take_word(line));
    return file.text.fields.emplace(std::move(path), unescaped(line)).second;
}

} // namespace

std::string fingerprint(std::string_view bytes) {
    std::uint64_t hash = 14695981039346656037U;
    for (const char c : bytes)
        hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211U;
    return fmt::format("{:016x}", hash);
}

std::string bytes_of(const KeptFile& file) {
    auto bytes = fmt::format("{}{}\nbook\t{}\nbegun\t{}\nkept\t{}\n", head, version, escaped(file.book),
                             iso(file.begun_at), iso(file.kept_at));
    for (const auto& words : file.text.begun)
        bytes += fmt::format("says\t{}\n", escaped(words));
    for (const auto& [path, text] : file.text.fields)
        bytes += fmt::format("field\t{}\t{}\n", escaped(path), escaped(text));
    return bytes + fmt::format("end\t{}\n", fingerprint(bytes));
}

Result<KeptFile> read_kept_file(std::string_view bytes) {
    auto rest = bytes;
    const auto first = take_line(rest);
    if (!first.starts_with(head))
        return refusal("is no file of kept work");
    if (first.substr(head.size()) != version)
        return refusal(fmt::format("is of version {}, and this program reads version {}",
                                   excerpt(first.substr(head.size())), version));
    const auto end = bytes.rfind("\nend\t");
    if (end == std::string_view::npos ||
        bytes.substr(end + 1) != fmt::format("end\t{}\n", fingerprint(bytes.substr(0, end + 1))))
        return refusal("is torn: it does not end as it was written");
    rest = rest.substr(0, rest.size() - (bytes.size() - end - 1));
    KeptFile file;
    while (!rest.empty())
        if (const auto line = take_line(rest); !take_in(file, line))
            return refusal("has a line that this program does not know");
    return file;
}

} // namespace mellowbin::exchange
