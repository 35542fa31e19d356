#pragma once

#include <fmt/format.h>

#include <ostream>
#include <utility>

namespace mellowbin::cli {

/// Formats and prints. (Not fmt::print: into a stream, it compiles the whole of fmt into each source.)
template <class... Values>
void say(std::ostream& out, fmt::format_string<Values...> words, Values&&... values) {
    out << fmt::format(words, std::forward<Values>(values)...);
}

} // namespace mellowbin::cli
