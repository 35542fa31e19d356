# cmake -DHEADER=identifiers_text.h -DTABLE=application_identifiers.csv -P make_identifiers.cmake
# Puts the table into a C++ header as it is; it is read, and every fault of a row named, by application_identifier.cpp.
cmake_minimum_required(VERSION 3.25)

file(READ ${TABLE} text)
string(LENGTH "${text}" length)
if(length GREATER 60000)
    message(FATAL_ERROR "${TABLE} is longer than one string literal may be")
endif()
file(WRITE ${HEADER} "#pragma once
// made from the table of application identifiers; do not edit

#include <string_view>

namespace mellowbin::tables {

inline constexpr std::string_view application_identifiers = R\"csv(")
file(APPEND ${HEADER} "${text}")
file(APPEND ${HEADER} ")csv\";

} // namespace mellowbin::tables
")
