#pragma once

#include "core/bake.h"
#include "core/batch.h"
#include "core/id.h"
#include "core/kept_text.h"
#include "core/lot.h"
#include "core/property.h"
#include "core/retest.h"
#include "ui/views/common/form.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <concepts>
#include <cstdint>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

/// What was typed into a screen's forms as texts by the paths of their fields, and back. A struct's fields
/// are listed once, by a structured binding: who adds a field must say here whether it is kept, or nothing
/// compiles.
///
///     void keep(auto& k, Kind<AdditionDraft> auto& draft) {
///         auto& [substance, ppm] = draft;
///         k("substance", substance);
///         k("ppm", ppm);
///     }
namespace mellowbin::views {

/// A T, to be read from or to be written.
template <class T, class Of>
concept Kind = std::same_as<std::remove_const_t<T>, Of>;

namespace kept {
template <class T> inline constexpr bool is_id = false;
template <class Tag> inline constexpr bool is_id<Id<Tag>> = true;
template <class T> inline constexpr bool is_optional = false;
template <class T> inline constexpr bool is_optional<std::optional<T>> = true;
template <class T> inline constexpr bool is_vector = false;
template <class T> inline constexpr bool is_vector<std::vector<T>> = true;
template <class T> inline constexpr bool is_set = false;
template <class T, class Less> inline constexpr bool is_set<std::set<T, Less>> = true;

/// Nothing where it is no whole number.
inline std::optional<std::int64_t> number_in(std::string_view text) {
    std::int64_t number = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    return fault == std::errc() && end == text.data() + text.size() ? std::optional(number) : std::nullopt;
}
} // namespace kept

/// Where in the paths somebody writes or reads.
class KeptPath {
public:
    template <class Body> void within(std::string_view name, Body body) {
        const auto before = path_.size();
        (path_ += name) += '/';
        body();
        path_.resize(before);
    }

protected:
    [[nodiscard]] std::string path(std::string_view name) const { return path_ + std::string(name); }

private:
    std::string path_;
};

class KeptWriter : public KeptPath {
public:
    static constexpr bool writes = true;
    explicit KeptWriter(KeptText& to) : to_(&to) {}
    /// Something is begun: "a retest of lot W24-118".
    void begun(std::string words) { to_->begun.push_back(std::move(words)); }

    /// What is empty is not written.
    template <class T> void operator()(std::string_view name, const T& value) {
        if constexpr (std::same_as<T, std::string>)
            write(name, value);
        else if constexpr (std::same_as<T, bool>)
            write(name, value ? "yes" : "");
        else if constexpr (std::same_as<T, Property>)
            write(name, std::string(traits(value).key));
        else if constexpr (std::integral<T>)
            write(name, std::to_string(value));
        else if constexpr (kept::is_id<T>)
            write(name, value.is_known() ? std::to_string(value.number()) : "");
        else if constexpr (kept::is_optional<T>) {
            if (value)
                (*this)(name, *value);
        } else if constexpr (kept::is_vector<T> || kept::is_set<T>)
            write_all(name, value);
        else
            within(name, [&] { keep(*this, value); });
    }

private:
    void write(std::string_view name, const std::string& text) {
        if (!text.empty())
            to_->fields.insert_or_assign(path(name), text);
    }
    template <class All> void write_all(std::string_view name, const All& all) {
        if (all.empty())
            return;
        write(name, std::to_string(all.size()));
        within(name, [&] {
            std::size_t i = 0;
            for (const auto& one : all)
                (*this)(std::to_string(i++), one);
        });
    }

    KeptText* to_;
};

/// Reads what a KeptWriter wrote. What is not there becomes empty.
class KeptReader : public KeptPath {
public:
    static constexpr bool writes = false;
    explicit KeptReader(const KeptText& from) : from_(&from) {}

    /// Something stands there or below.
    [[nodiscard]] bool has(std::string_view name) const {
        const auto below = from_->fields.lower_bound(path(name) + "/");
        return from_->fields.contains(path(name)) ||
               (below != from_->fields.end() && below->first.starts_with(path(name) + "/"));
    }
    /// The next words of the paths that begin with this one.
    [[nodiscard]] std::vector<std::string> names_in(std::string_view name) const {
        const auto begin = path(name) + "/";
        std::vector<std::string> names;
        for (auto at = from_->fields.lower_bound(begin);
             at != from_->fields.end() && at->first.starts_with(begin); ++at) {
            auto next = at->first.substr(begin.size(), at->first.find('/', begin.size()) - begin.size());
            if (std::find(names.begin(), names.end(), next) == names.end())
                names.push_back(std::move(next));
        }
        return names;
    }

    template <class T> void operator()(std::string_view name, T& value) {
        if constexpr (std::same_as<T, std::string>)
            value = text(name);
        else if constexpr (std::same_as<T, bool>)
            value = !text(name).empty();
        else if constexpr (std::same_as<T, Property>)
            value = property_from_key(text(name)).value_or(T{});
        else if constexpr (std::integral<T>)
            value = static_cast<T>(kept::number_in(text(name)).value_or(value));
        else if constexpr (kept::is_id<T>)
            value = T(kept::number_in(text(name)).value_or(0));
        else if constexpr (kept::is_optional<T>) {
            value.reset();
            if (has(name))
                (*this)(name, value.emplace());
        } else if constexpr (kept::is_vector<T> || kept::is_set<T>)
            read_all(name, value);
        else
            within(name, [&] { keep(*this, value); });
    }

private:
    [[nodiscard]] std::string text(std::string_view name) const {
        const auto at = from_->fields.find(path(name));
        return at == from_->fields.end() ? std::string() : at->second;
    }
    /// No more than there are fields: a file that says otherwise is not believed.
    template <class All> void read_all(std::string_view name, All& all) {
        all.clear();
        const auto said =
            static_cast<std::size_t>(std::max<std::int64_t>(0, kept::number_in(text(name)).value_or(0)));
        const auto count = std::min(said, from_->fields.size());
        within(name, [&] {
            for (std::size_t i = 0; i < count; ++i) {
                typename All::value_type one{};
                (*this)(std::to_string(i), one);
                if constexpr (kept::is_set<All>)
                    all.insert(std::move(one));
                else
                    all.push_back(std::move(one));
            }
        });
    }

    const KeptText* from_;
};

/// An enumerator by its word in a list: the list may grow, its order may change.
template <class K, class E, std::size_t N>
void keep_word(K& k, std::string_view name, E& value, const std::array<std::string_view, N>& words) {
    if constexpr (K::writes) {
        k(name, std::string(words[static_cast<std::size_t>(value)]));
    } else {
        std::string word;
        k(name, word);
        const auto at = std::find(words.begin(), words.end(), word);
        if (at != words.end())
            value = static_cast<std::remove_const_t<E>>(at - words.begin());
    }
}

/// The place in a list that the model gives, by the name that stands there; one that is not there any more is
/// none, or the first where the list begins at 1.
template <class K, class Index>
void keep_choice(K& k, std::string_view name, Index& chosen, const std::vector<std::string>& names,
                 int first = 0) {
    const auto at = static_cast<std::size_t>(chosen - first);
    if constexpr (K::writes) {
        if (chosen >= first && at < names.size())
            k(name, names[at]);
    } else {
        std::string word;
        k(name, word);
        const auto found = std::find(names.begin(), names.end(), word);
        chosen = found == names.end() ? first - 1 : first + static_cast<int>(found - names.begin());
    }
}

// Drafts that more than one screen has.

inline void keep(auto& k, Kind<FigureDraft> auto& draft) {
    auto& [property, value, basis, method, nitrogen_factor] = draft;
    k("property", property);
    k("value", value);
    k("basis", basis);
    k("method", method);
    k("nitrogen_factor", nitrogen_factor);
}

/// Without those that a form made room for and nobody typed.
template <class K> void keep_figures(K& k, auto& figures) {
    if constexpr (K::writes) {
        std::vector<FigureDraft> typed;
        std::copy_if(figures.begin(), figures.end(), std::back_inserter(typed), [](const FigureDraft& one) {
            return !(one.value + one.basis + one.method + one.nitrogen_factor).empty();
        });
        k("figures", typed);
    } else {
        k("figures", figures);
    }
}

inline void keep(auto& k, Kind<RetestDraft> auto& draft) {
    auto& [taken_on, place, note, figures] = draft;
    k("taken_on", taken_on);
    k("place", place);
    k("note", note);
    keep_figures(k, figures);
}

// Forms.

inline std::string key_words(std::int64_t key) { return std::to_string(key); }
inline std::string key_words(const std::string& key) { return key; }
template <class Tag> std::string key_words(Id<Tag> key) { return std::to_string(key.number()); }
inline bool read_key(std::string_view words, std::string& key) {
    key = words;
    return !key.empty();
}
inline bool read_key(std::string_view words, std::int64_t& key) {
    const auto number = kept::number_in(words);
    key = number.value_or(0);
    return number.has_value();
}
template <class Tag> bool read_key(std::string_view words, Id<Tag>& key) {
    key = Id<Tag>(kept::number_in(words).value_or(0));
    return key.is_known();
}

/// Somebody typed something else than it began with.
template <class Draft> bool differs(const Draft& typed, const Draft& first) {
    KeptText one, other;
    KeptWriter{one}("", typed);
    KeptWriter{other}("", first);
    return one.fields != other.fields;
}

template <class Key, class Draft> Draft first_of(const Form<Key, Draft>& form, const Key& key) {
    const auto at = form.firsts.find(key);
    return at == form.firsts.end() ? Draft{} : at->second;
}

/// Whose draft somebody typed into.
template <class Key, class Draft> std::vector<Key> begun_in(const Form<Key, Draft>& form) {
    std::vector<Key> keys;
    for (const auto& [key, draft] : form.drafts)
        if (differs(draft, first_of(form, key)))
            keys.push_back(key);
    return keys;
}

/// The drafts that somebody typed into, each with what it began with, and whose form is open. `words` says
/// what the draft of a key is.
template <class Key, class Draft, class Words>
void keep_form(KeptWriter& k, std::string_view name, const Form<Key, Draft>& form, Words words) {
    const auto begun = begun_in(form);
    if (begun.empty())
        return;
    k.within(name, [&] {
        for (const auto& key : begun) {
            k.begun(words(key));
            k.within(key_words(key), [&] {
                k("draft", form.drafts.at(key));
                k("first", first_of(form, key));
                k("is_open", form.open == key);
            });
        }
    });
}

/// Takes up what keep_form() kept; what was typed since in the same form stays. The keys that were taken up.
template <class Key, class Draft>
std::vector<Key> take_up_form(KeptReader& k, std::string_view name, Form<Key, Draft>& form) {
    std::vector<Key> keys;
    const auto names = k.names_in(name);
    k.within(name, [&] {
        for (const auto& words : names) {
            Key key{};
            if (!read_key(words, key))
                continue;
            const auto now = form.drafts.find(key);
            if (now != form.drafts.end() && differs(now->second, first_of(form, key)))
                continue;
            k.within(words, [&] {
                Draft draft, first;
                bool is_open = false;
                k("draft", draft);
                k("first", first);
                k("is_open", is_open);
                form.drafts.insert_or_assign(key, std::move(draft));
                form.firsts.insert_or_assign(key, std::move(first));
                if (is_open)
                    form.open = key;
            });
            keys.push_back(key);
        }
    });
    return keys;
}

} // namespace mellowbin::views
