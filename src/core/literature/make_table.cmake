# cmake -DHEADER=ingredient_water_text.h -DTABLE=ingredient_water.csv -DNAME=ingredient_water -P make_table.cmake
# Puts a table into a C++ header as it is; it is read, and every fault of a row named, by the source that includes it.
cmake_minimum_required(VERSION 3.25)

file(READ ${TABLE} text)
string(LENGTH "${text}" length)
if(length GREATER 60000)
    message(FATAL_ERROR "${TABLE} is longer than one string literal may be")
endif()
string(FIND "${text}" ")csv\"" found)
if(NOT found EQUAL -1)
    message(FATAL_ERROR "${TABLE} holds the end mark of the literal")
endif()
file(WRITE ${HEADER} "#pragma once
// made from ${NAME}.csv; do not edit

#include <string_view>

namespace mellowbin::tables {

inline constexpr std::string_view ${NAME} = R\"csv(${text})csv\";

} // namespace mellowbin::tables
")
