#pragma once

#include "core/promised.h"

#include <initializer_list>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace mellowbin {

/// One reason why a request cannot be met, for the person who made it.
struct Refusal {
    std::string field;  ///< the field as the screen names it; empty when it is about the whole request
    std::string what;   ///< what was read and what is expected
    std::string remedy; ///< what to do about it

    friend bool operator==(const Refusal&, const Refusal&) = default;
};

/// All reasons at once: a person corrects a form once, not field by field.
using Refusals = std::vector<Refusal>;

/// Either the thing asked for or every reason why not. A broken world (disk, book) is an exception instead.
template <class T> class [[nodiscard]] Result {
public:
    Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}
    Result(Refusals refusals) : state_(std::in_place_index<1>, std::move(refusals)) {
        promised(!std::get<1>(state_).empty());
    }
    Result(Refusal refusal) : Result(Refusals{std::move(refusal)}) {}

    explicit operator bool() const { return state_.index() == 0; }
    const T& value() const& { return std::get<0>(state_); }
    T& value() & { return std::get<0>(state_); }
    T&& value() && { return std::get<0>(std::move(state_)); }
    const T& operator*() const& { return value(); }
    T& operator*() & { return value(); }
    T&& operator*() && { return std::move(*this).value(); }
    const T* operator->() const { return &value(); }
    T* operator->() { return &value(); }
    const Refusals& refusals() const { return std::get<1>(state_); }

private:
    std::variant<T, Refusals> state_;
};

/// The answer of an act that gives nothing back but may be refused.
struct Done {};

inline void append(Refusals& to, const Refusals& more) { to.insert(to.end(), more.begin(), more.end()); }

/// "Field: what. Remedy" on one line, as the command line prints it.
inline std::string in_words(const Refusal& refusal) {
    std::string words = refusal.field.empty() ? refusal.what : refusal.field + ": " + refusal.what;
    if (!refusal.remedy.empty())
        words += ". " + refusal.remedy;
    return words;
}

} // namespace mellowbin
