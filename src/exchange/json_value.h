#pragma once

#include <nlohmann/json_fwd.hpp>

#include <cstdint>
#include <string>

namespace mellowbin::exchange {

/// What was read, short enough for a message. A list or an object that holds others stands as its brackets
/// alone: it may be of any depth.
std::string json_words(const nlohmann::json& value);

/// The whole number; throws std::runtime_error where it is none, or does not fit. (Its own get() takes any
/// number, also one that no integer can hold.)
std::int64_t whole_number(const nlohmann::json& value);
/// The same of one that must fit into an int.
int small_number(const nlohmann::json& value);

} // namespace mellowbin::exchange
