#include "print/page.h"

#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>

namespace mellowbin::print {
namespace {

constexpr int least = 40, most = 400; // mm

std::optional<int> side(std::string_view typed) {
    int mm = 0;
    const auto [end, fault] = std::from_chars(typed.data(), typed.data() + typed.size(), mm);
    const bool is_whole = fault == std::errc() && end == typed.data() + typed.size();
    return is_whole && mm >= least && mm <= most ? std::optional(mm) : std::nullopt;
}

} // namespace

PageSize across(PageSize page) {
    return {std::max(page.width_mm, page.height_mm), std::min(page.width_mm, page.height_mm)};
}

Result<PageSize> read_page_size(std::string_view typed, PageSize usual) {
    const auto words = lower_case(trimmed(typed));
    if (words.empty())
        return usual;
    if (words == "a4")
        return a4;
    if (words == "letter")
        return letter;
    const auto by = words.find('x');
    const auto width = side(std::string_view(words).substr(0, by));
    const auto height = by == std::string::npos ? std::nullopt : side(std::string_view(words).substr(by + 1));
    if (!width || !height)
        return Refusal{"Paper", fmt::format("\"{}\" is none", excerpt(typed)),
                       fmt::format("Write a4, letter, or a label's width and height in whole mm, each from "
                                   "{} to {}: 105x148",
                                   least, most)};
    return PageSize{static_cast<double>(*width), static_cast<double>(*height)};
}

std::string media_of(PageSize page) {
    if (page == a4 || page == across(a4))
        return "A4";
    if (page == letter || page == across(letter))
        return "Letter";
    return fmt::format("Custom.{}x{}mm", page.width_mm, page.height_mm);
}

} // namespace mellowbin::print
