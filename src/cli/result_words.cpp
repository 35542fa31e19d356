#include "cli/result_words.h"

#include "core/property.h"
#include "core/typed_text.h"

#include <fmt/format.h>

namespace mellowbin::cli {
namespace {

std::optional<Property> property_called(std::string_view words) {
    for (const auto& kind : all_properties())
        if (same_words(kind.key, words) || same_words(kind.name, words))
            return kind.property;
    return {};
}

std::string all_keys() {
    std::string keys;
    for (const auto& kind : all_properties())
        keys += fmt::format("{}{}", keys.empty() ? "" : ", ", kind.key);
    return keys;
}

/// What stands before the next "@", which is taken off with it.
std::string next_part(std::string_view& rest) {
    const auto at = rest.find('@');
    const auto part = trimmed(rest.substr(0, at));
    rest = at == std::string_view::npos ? std::string_view{} : rest.substr(at + 1);
    return std::string(part);
}

} // namespace

Result<FigureDraft> read_result(std::string_view typed) {
    const auto equals = typed.find('=');
    if (equals == std::string_view::npos)
        return Refusal{"Result", fmt::format("\"{}\" was read; {} is expected", excerpt(typed), result_form),
                       "Such as --result \"glutathione=105,5 @ 14 % moisture @ in-house\""};
    const auto name = trimmed(typed.substr(0, equals));
    const auto property = property_called(name);
    if (!property)
        return Refusal{"Result", fmt::format("the property \"{}\" is not known", excerpt(name)),
                       "Choose one of: " + all_keys()};
    std::string_view rest = typed.substr(equals + 1);
    FigureDraft figure;
    figure.property = *property;
    figure.value = next_part(rest);
    figure.basis = next_part(rest);
    figure.method = std::string(trimmed(rest)); // an "@" in it stays
    if (figure.value.empty())
        return Refusal{std::string(traits(*property).name),
                       fmt::format("no value was read; {} is expected", result_form),
                       "Leave the result out where nothing was measured"};
    return figure;
}

} // namespace mellowbin::cli
