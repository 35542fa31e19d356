#include "cli/door_words.h"

#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>

namespace mellowbin::cli {
namespace {

constexpr std::string_view lot_begins = "lot=";

Refusal badly_written(std::string what) {
    return {std::string(at_the_door), fmt::format("{}; {} is expected", what, door_check_form),
            "Such as --check \"Bags dry=no; 3 bags; wet at one corner\""};
}

/// "3" of "3 bags"; nothing where the part is none.
std::optional<std::string> bags_in(std::string_view part) {
    constexpr std::string_view digits_and_signs = "0123456789+-.,";
    if (part.empty() || digits_and_signs.find(part.front()) == std::string_view::npos)
        return {};
    for (const std::string_view word : {"bags", "bag"})
        if (lower_case(part).ends_with(word))
            return std::string(trimmed(part.substr(0, part.size() - word.size())));
    return {};
}

/// What stands before the next ";", which is taken off with it.
std::string_view next_part(std::string_view& rest) {
    const auto at = rest.find(';');
    const auto part = trimmed(rest.substr(0, at));
    rest = at == std::string_view::npos ? std::string_view{} : rest.substr(at + 1);
    return part;
}

} // namespace

Result<DoorCheckDraft> read_door_check(std::string_view typed) {
    const auto equals = typed.find('=');
    if (equals == std::string_view::npos)
        return badly_written(fmt::format("\"{}\" was read", excerpt(typed)));
    DoorCheckDraft check;
    check.question = trimmed(typed.substr(0, equals));
    std::string_view rest = typed.substr(equals + 1);
    check.answer = next_part(rest);
    if (check.answer.empty())
        return badly_written(fmt::format("\"{}\" was read, without an answer", excerpt(typed)));
    while (!trimmed(rest).empty()) {
        const auto part = next_part(rest);
        if (part.starts_with(lot_begins)) {
            if (!check.lot.empty())
                return badly_written(fmt::format("\"{}\" was read, with two lots", excerpt(typed)));
            check.lot = trimmed(part.substr(lot_begins.size()));
            continue;
        }
        const auto bags = bags_in(part);
        if (bags && !check.bags.empty())
            return badly_written(fmt::format("\"{}\" was read, with two counts of bags", excerpt(typed)));
        if (bags)
            check.bags = *bags;
        else if (!part.empty())
            check.note += (check.note.empty() ? "" : "; ") + std::string(part);
    }
    return check;
}

} // namespace mellowbin::cli
