#include "core/typed_text.h"
#include "exchange/application_identifier.h"
#include "exchange/element_string.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

namespace mellowbin::exchange {
namespace {

Refusal no_link(std::string what) {
    return {"Scan", std::move(what), "Scan the other symbol of the label, or type what it says"};
}

constexpr std::array<std::string_view, 4> schemes{"https://", "http://", "HTTPS://", "HTTP://"};

std::optional<int> hex_digit(char c) {
    if (c >= '0' && c <= '9')
        return c - '0';
    if (c >= 'a' && c <= 'f')
        return c - 'a' + 10;
    if (c >= 'A' && c <= 'F')
        return c - 'A' + 10;
    return {};
}

/// RFC 3986; in a query a plus is a space. Nothing: a byte 0 in it.
std::optional<std::string> decoded(std::string_view text, bool is_query) {
    std::string plain;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto high = i + 2 < text.size() ? hex_digit(text[i + 1]) : std::nullopt;
        const auto low = i + 2 < text.size() ? hex_digit(text[i + 2]) : std::nullopt;
        if (text[i] == '%' && high && low) {
            plain += static_cast<char>(*high * 16 + *low);
            if (plain.back() == '\0')
                return {};
            i += 2;
        } else {
            plain += is_query && text[i] == '+' ? ' ' : text[i];
        }
    }
    return plain;
}

std::vector<std::string_view> parts_of(std::string_view text, char parted_by) {
    std::vector<std::string_view> parts;
    while (true) {
        const auto end = text.find(parted_by);
        parts.push_back(text.substr(0, end));
        if (end == std::string_view::npos)
            return parts;
        text.remove_prefix(end + 1);
    }
}

/// GTINs of 8, 12 and 13 digits are those of 14 with zeros before them.
std::string filled_up(std::string_view identifier, std::string value) {
    if (identifier == "01" && (value.size() == 8 || value.size() == 12 || value.size() == 13))
        value.insert(0, 14 - value.size(), '0');
    return value;
}

/// Reads one pair after another and collects them.
class LinkReader {
public:
    bool add(std::string_view identifier, std::string_view text, bool is_query) {
        auto value = decoded(text, is_query);
        const auto* known = application_identifier(identifier);
        if (!known)
            return refuse(fmt::format("\"{}\" is no application identifier", excerpt(identifier)));
        if (!value || value->empty())
            return refuse(fmt::format("({}) has no value", identifier));
        if (short_gtin == ShortGtin::is_filled_up)
            value = filled_up(identifier, std::move(*value));
        if (const auto why = fault_of(*known, *value))
            return refuse(fmt::format("({}): {}", identifier, *why));
        if (!value_of(elements, identifier).empty())
            return refuse(fmt::format("({}) stands there twice", identifier));
        elements.push_back({std::string(identifier), std::move(*value)});
        return true;
    }
    bool refuse(std::string what) {
        fault = std::move(what);
        return false;
    }

    ShortGtin short_gtin{};
    Elements elements;
    std::string fault;
};

/// Where in the path its key stands: of the pairs from the end the first that is one.
std::optional<std::size_t> place_of_key(const std::vector<std::string_view>& path) {
    for (std::size_t behind = 2; behind <= path.size(); behind += 2) {
        const auto at = path.size() - behind;
        const auto* known = application_identifier(path[at]);
        if (!known)
            return {};
        if (known->link_qualifiers)
            return at;
    }
    return {};
}

/// The qualifiers stand in one of the orders that the key allows.
bool are_in_order(const std::vector<std::string>& qualifiers,
                  const std::vector<std::vector<std::string>>& ways) {
    const auto fits = [&](const std::vector<std::string>& way) {
        auto next = way.begin();
        for (const auto& one : qualifiers) {
            next = std::find(next, way.end(), one);
            if (next == way.end())
                return false;
            ++next;
        }
        return true;
    };
    return qualifiers.empty() || std::any_of(ways.begin(), ways.end(), fits);
}

bool belongs_in_path(std::string_view identifier, const ApplicationIdentifier& key) {
    return std::any_of(key.link_qualifiers->begin(), key.link_qualifiers->end(), [&](const auto& way) {
        return std::find(way.begin(), way.end(), identifier) != way.end();
    });
}

bool read_path(LinkReader& link, const std::vector<std::string_view>& path, std::size_t at) {
    std::vector<std::string> qualifiers;
    for (std::size_t i = at; i + 1 < path.size(); i += 2) {
        if (!link.add(path[i], path[i + 1], false))
            return false;
        if (i > at)
            qualifiers.emplace_back(path[i]);
    }
    const auto* key = application_identifier(path[at]);
    return are_in_order(qualifiers, *key->link_qualifiers) ||
           link.refuse(fmt::format("what follows ({}) is not in its order", path[at]));
}

bool read_query(LinkReader& link, std::string_view query, const ApplicationIdentifier& key) {
    for (const auto pair : parts_of(query, '&')) {
        const auto equals = std::min(pair.find('='), pair.size());
        const auto name = pair.substr(0, equals);
        if (name.empty() ||
            !std::all_of(name.begin(), name.end(), [](char c) { return c >= '0' && c <= '9'; }))
            continue; // a key of its own, nothing of the standard's
        if (belongs_in_path(name, key) && value_of(link.elements, name).empty())
            return link.refuse(fmt::format("({}) belongs into the path", name));
        if (!link.add(name, pair.substr(std::min(equals + 1, pair.size())), true))
            return false;
    }
    return true;
}

} // namespace

bool is_uri(std::string_view text) {
    return std::any_of(schemes.begin(), schemes.end(),
                       [&](std::string_view scheme) { return text.starts_with(scheme); });
}

Result<Elements> read_digital_link(std::string_view uri, ShortGtin short_gtin) {
    if (!is_uri(uri))
        return no_link("is no address that begins with https://");
    uri.remove_prefix(uri.find("//") + 2);
    uri = uri.substr(0, uri.find('#'));
    const auto question = std::min(uri.find('?'), uri.size());
    auto path = parts_of(uri.substr(0, question), '/');
    path.erase(path.begin()); // the domain
    const auto at = place_of_key(path);
    if (!at)
        return no_link("is an address without a key of GS1 in it: it says nothing of a pallet");
    LinkReader link;
    link.short_gtin = short_gtin;
    const auto* key = application_identifier(path[*at]);
    if (!read_path(link, path, *at) ||
        (question < uri.size() && !read_query(link, uri.substr(question + 1), *key)))
        return no_link(link.fault);
    if (auto conflicts = conflicts_in(link.elements); !conflicts.empty())
        return conflicts;
    return link.elements;
}

} // namespace mellowbin::exchange
