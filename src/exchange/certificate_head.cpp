#include "exchange/certificate_head.h"

#include "core/decimal.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <span>

namespace mellowbin {
namespace {

constexpr std::array fields{
    FieldColumn{"lot number", &LotDraft::code},
    FieldColumn{"mill", &LotDraft::mill},
    FieldColumn{"flour", &LotDraft::flour},
    FieldColumn{"place", &LotDraft::place},
    FieldColumn{"delivery note", &LotDraft::delivery_note},
    FieldColumn{"milled on", &LotDraft::milled_on},
    FieldColumn{"delivered on", &LotDraft::delivered_on},
    FieldColumn{"best before", &LotDraft::best_before},
    FieldColumn{"certificate date", &LotDraft::certified_on},
    FieldColumn{"flour temperature °c", &LotDraft::delivered_c, " °C"},
    FieldColumn{"flour temperature c", &LotDraft::delivered_c, " °C"},
    FieldColumn{"flour temperature °f", &LotDraft::delivered_c, " °F"},
    FieldColumn{"flour temperature f", &LotDraft::delivered_c, " °F"},
    FieldColumn{"weight kg", &LotDraft::mass_kg},
    FieldColumn{"bag kg", &LotDraft::bag_kg},
    FieldColumn{"price per tonne", &LotDraft::price_per_tonne},
};

/// What laboratories call a property besides its name and key.
struct OtherName {
    Property property;
    const char* name; ///< lower case
};
constexpr std::array other_names{
    OtherName{Property::glutathione, "gsh"},
    OtherName{Property::glutathione, "reduced glutathione"},
    OtherName{Property::free_sulfhydryl, "free sh"},
    OtherName{Property::free_sulfhydryl, "free thiol groups"},
};

/// A head cut into what stands before the brackets and the parts inside them.
struct HeadParts {
    std::string name; ///< lower case, one space between words
    std::vector<std::string> in_brackets;
};

/// Words in lower case with one space between them; "wet_gluten" is two.
std::string words_of(std::string_view head) {
    std::string spaced = lower_case(head);
    std::replace(spaced.begin(), spaced.end(), '_', ' ');
    std::string_view text = spaced;
    std::string out;
    for (text = trimmed(text); !text.empty(); text = trimmed(text)) {
        const auto blank = std::min(text.find_first_of(" \t\r\n"), text.size());
        out += (out.empty() ? "" : " ") + std::string(text.substr(0, blank));
        text.remove_prefix(blank);
    }
    return out;
}

std::vector<std::string> names_in_heads(const PropertyTraits& property) {
    std::vector<std::string> names{lower_case(property.name), words_of(property.key)};
    for (const auto& other : other_names)
        if (other.property == property.property)
            names.emplace_back(other.name);
    return names;
}

/// "µmol/g" with either of the two signs for micro is "umol/g".
std::string with_plain_micro(std::string_view unit) {
    for (const std::string_view micro : {"\u00B5", "\u03BC"})
        if (unit.starts_with(micro))
            return "u" + std::string(unit.substr(micro.size()));
    return std::string(unit);
}

/// Parts end at a semicolon, or at a comma with a space behind it: "13,5 % moisture" is one part.
std::vector<std::string> parts_of(std::string_view text) {
    std::vector<std::string> parts(1);
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == ';' || text.substr(i).starts_with(", "))
            parts.emplace_back();
        else
            parts.back() += text[i];
    }
    for (auto& part : parts)
        part = trimmed(part);
    std::erase(parts, std::string{});
    return parts;
}

Refusal bad_head(std::string_view head, std::string what, std::string remedy) {
    return {fmt::format("Column \"{}\"", excerpt(head)), std::move(what), std::move(remedy)};
}

Result<HeadParts> cut(std::string_view head) {
    const auto open = head.find('(');
    if (open == std::string_view::npos)
        return HeadParts{words_of(head), {}};
    const auto tail = trimmed(head.substr(open + 1));
    if (!tail.ends_with(')'))
        return bad_head(head, "a bracket is opened and not closed at its end",
                        "If the separator stands inside the brackets, put the head in quotation marks");
    return HeadParts{words_of(head.substr(0, open)), parts_of(tail.substr(0, tail.size() - 1))};
}

/// The words behind a name that the text begins with; nothing when it does not.
std::optional<std::string_view> behind(std::string_view text, std::string_view name) {
    if (!text.starts_with(name))
        return {};
    const auto rest = text.substr(name.size());
    if (!rest.empty() && rest.front() != ' ' && rest.front() != '%')
        return {};
    return trimmed(rest);
}

/// "n x 6.25", "N × 5,7", "Nx5.7" -> the factor as it stands.
std::optional<std::string> nitrogen_factor_in(std::string_view part) {
    const std::string words = lower_case(part);
    std::string_view rest = words;
    if (!rest.starts_with('n'))
        return {};
    rest = trimmed(rest.substr(1));
    for (const std::string_view times : {"x", "*", "×"})
        if (rest.starts_with(times) && read_decimal("", rest.substr(times.size())))
            return std::string(trimmed(rest.substr(times.size())));
    return {};
}

/// Sorts the brackets' parts into basis, nitrogen factor and method.
Refusals read_brackets(std::string_view head, const std::vector<std::string>& parts, FigureDraft& figure) {
    for (const auto& part : parts) {
        const auto factor = nitrogen_factor_in(part);
        std::string* const goes_to = factor && figure.property == Property::protein ? &figure.nitrogen_factor
                                     : read_basis("", part)                         ? &figure.basis
                                                                                    : &figure.method;
        if (!goes_to->empty())
            return {bad_head(
                head, fmt::format("\"{}\" and \"{}\" were read; one of them is expected", *goes_to, part),
                "Give one basis, one method and one nitrogen factor at most")};
        *goes_to = factor && goes_to == &figure.nitrogen_factor ? *factor : part;
    }
    return {};
}

Result<CertificateColumn> read_figure_head(std::string_view head, const PropertyTraits& kind,
                                           std::string_view unit, const HeadParts& parts) {
    if (!same_words(with_plain_micro(unit), kind.unit)) {
        const auto read =
            unit.empty() ? std::string("no unit was read") : fmt::format("the unit \"{}\" was read", unit);
        const auto expected = kind.unit.empty() ? std::string("none") : fmt::format("\"{}\"", kind.unit);
        return bad_head(head, fmt::format("{}; {} is expected behind \"{}\"", read, expected, kind.name),
                        "Restate the figures in that unit, or give the column another name to leave it out");
    }
    FigureDraft figure;
    figure.property = kind.property;
    if (auto refusals = read_brackets(head, parts.in_brackets, figure); !refusals.empty())
        return refusals;
    if (kind.has_basis && figure.basis.empty())
        return bad_head(head, "no moisture basis was read",
                        "Say in brackets whether the figures are as is, at 14 % moisture or on dry matter");
    return CertificateColumn{FigureColumn{std::move(figure)}};
}

Result<CertificateColumn> read_addition_head(std::string_view head, Substance substance,
                                             std::string_view unit) {
    if (unit != "mg/kg" && unit != "ppm")
        return bad_head(head, fmt::format("the unit \"{}\" was read; mg/kg is expected", unit),
                        "Restate the doses in mg per kg of flour");
    return CertificateColumn{AdditionColumn{substance}};
}

/// What of a table the head's name begins with; of two, the longer: "l-cysteine hydrochloride".
template <class Row> struct Named {
    const Row* row = nullptr;
    std::string_view unit; ///< the words behind the name
};
template <class Row, class NamesOf>
Named<Row> longest_named(std::string_view head_name, std::span<const Row> rows, NamesOf names_of) {
    Named<Row> best;
    std::size_t longest = 0;
    for (const Row& row : rows) {
        for (const std::string& name : names_of(row)) {
            const auto unit = behind(head_name, name);
            if (unit && name.size() > longest) {
                longest = name.size();
                best = {&row, *unit};
            }
        }
    }
    return best;
}

} // namespace

Result<CertificateColumn> read_certificate_head(std::string_view head) {
    const auto parts = cut(head);
    if (!parts)
        return parts.refusals();
    for (const auto& column : fields)
        if (parts->name == column.name)
            return CertificateColumn{column};
    if (parts->name == "flour temperature")
        return bad_head(head, "no unit was read; °C or °F is expected behind it",
                        "Write \"flour temperature °C\"");
    const auto property = longest_named(std::string_view(parts->name), all_properties(), names_in_heads);
    if (property.row)
        return read_figure_head(head, *property.row, property.unit, *parts);
    const auto substance = longest_named(std::string_view(parts->name), all_substances(), [](Substance s) {
        return std::array{lower_case(name_of(s)), words_of(key_of(s))};
    });
    if (substance.row)
        return read_addition_head(head, *substance.row, substance.unit);
    return CertificateColumn{UnknownColumn{}};
}

} // namespace mellowbin
