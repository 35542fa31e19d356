#include "exchange/element_string.h"

#include "core/typed_text.h"
#include "exchange/application_identifier.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <vector>

namespace mellowbin::exchange {
namespace {

std::string field_of(std::string_view identifier) {
    const auto* known = application_identifier(identifier);
    return known && !known->title.empty() ? fmt::format("({}) {}", identifier, known->title)
                                          : fmt::format("({})", identifier);
}

constexpr const char* scan_again = "Scan it again, or type what the label says";

Refusal torn(std::string_view field, std::string what) {
    return {std::string(field), std::move(what), scan_again};
}

/// The element, or why it cannot be one.
Result<Element> accepted(std::string_view identifier, std::string value) {
    const auto* known = application_identifier(identifier);
    if (!known)
        return torn("Scan", fmt::format("\"{}\" is no application identifier", excerpt(identifier)));
    if (const auto fault = fault_of(*known, value))
        return torn(field_of(identifier), *fault);
    return Element{std::string(identifier), std::move(value)};
}

Result<Elements> without_conflicts(Elements elements) {
    if (elements.empty())
        return torn("Scan", "is empty");
    if (auto conflicts = conflicts_in(elements); !conflicts.empty())
        return conflicts;
    return elements;
}

bool may_not_stand_together(const Element& a, const Element& b) {
    const auto forbids = [](const Element& one, const Element& other) {
        const auto& patterns = application_identifier(one.identifier)->forbidden;
        return std::any_of(patterns.begin(), patterns.end(), [&](const std::string& pattern) {
            return is_of_pattern(other.identifier, pattern);
        });
    };
    return forbids(a, b) || forbids(b, a);
}

} // namespace

std::string value_of(const Elements& elements, std::string_view identifier) {
    for (const auto& element : elements)
        if (element.identifier == identifier)
            return element.value;
    return {};
}

Result<Elements> read_element_string(std::string_view data) {
    Elements elements;
    while (!data.empty()) {
        if (data.front() == group_separator) {
            data.remove_prefix(1);
            continue;
        }
        const auto identifier = identifier_at_start(data);
        if (identifier.empty())
            return torn("Scan", fmt::format("\"{}\" begins with no application identifier", excerpt(data)));
        data.remove_prefix(identifier.size());
        const auto* known = application_identifier(identifier);
        auto length = std::min(data.find(group_separator), data.size());
        if (known->is_predefined)
            length = std::min(length, known->most());
        auto element = accepted(identifier, std::string(data.substr(0, length)));
        if (!element)
            return element.refusals();
        elements.push_back(std::move(*element));
        data.remove_prefix(length);
    }
    return without_conflicts(std::move(elements));
}

Result<Elements> read_bracketed(std::string_view text) {
    std::string plain(text);
    std::erase(plain, ' ');
    std::string_view rest = plain;
    Elements elements;
    while (!rest.empty()) {
        const auto close = rest.find(')');
        if (rest.front() != '(' || close == std::string_view::npos)
            return torn("Scan",
                        fmt::format("\"{}\" was read; an identifier in brackets such as (10) is expected",
                                    excerpt(rest)));
        const auto identifier = rest.substr(1, close - 1);
        rest.remove_prefix(close + 1);
        std::string value;
        while (!rest.empty() && rest.front() != '(') {
            const bool is_escaped = rest.starts_with("\\(");
            value += is_escaped ? '(' : rest.front();
            rest.remove_prefix(is_escaped ? 2 : 1);
        }
        auto element = accepted(identifier, std::move(value));
        if (!element)
            return element.refusals();
        elements.push_back(std::move(*element));
    }
    return without_conflicts(std::move(elements));
}

Refusals conflicts_in(const Elements& elements) {
    Refusals conflicts;
    std::vector<const Element*> firsts; // of each identifier; a label that repeats one in vain is told once
    std::set<std::string_view> told;
    for (const auto& one : elements) {
        const auto first = std::find_if(firsts.begin(), firsts.end(), [&](const Element* earlier) {
            return earlier->identifier == one.identifier;
        });
        if (first == firsts.end()) {
            for (const auto* earlier : firsts)
                if (may_not_stand_together(*earlier, one))
                    conflicts.push_back(
                        torn(field_of(one.identifier),
                             fmt::format("may not stand beside {}", field_of(earlier->identifier))));
            firsts.push_back(&one);
        } else if ((*first)->value != one.value && told.insert(one.identifier).second) {
            conflicts.push_back(torn(field_of(one.identifier),
                                     fmt::format("says \"{}\" and \"{}\"", (*first)->value, one.value)));
        }
    }
    return conflicts;
}

Refusals missing_beside(const Elements& elements) {
    Refusals missing;
    const auto has = [&](const std::string& pattern) {
        return std::any_of(elements.begin(), elements.end(),
                           [&](const Element& one) { return is_of_pattern(one.identifier, pattern); });
    };
    for (const auto& element : elements)
        for (const auto& group : application_identifier(element.identifier)->needs) {
            if (std::any_of(group.begin(), group.end(), has))
                continue;
            std::string names;
            for (const auto& one : group)
                names += (names.empty() ? "" : ", ") + one;
            missing.push_back({field_of(element.identifier),
                               fmt::format("wants one of {} beside it, and none was scanned", names),
                               "Scan the other symbol of the label, too"});
        }
    return missing;
}

bool complete_each_other(const Elements& before, const Elements& now) {
    const auto has = [](const Elements& elements, const char* identifier) {
        return !value_of(elements, identifier).empty();
    };
    const bool one_has_it = has(before, "10") != has(now, "10");
    const bool are_two_pallets = has(before, "00") && has(now, "00");
    auto both = before;
    both.insert(both.end(), now.begin(), now.end());
    if (!one_has_it || are_two_pallets || !conflicts_in(both).empty())
        return false;
    const bool wants_it =
        missing_beside(both).size() < missing_beside(before).size() + missing_beside(now).size();
    return has(now, "10") || wants_it;
}

} // namespace mellowbin::exchange
