# cmake -DHEADER=ingredients_text.h -DTABLE=ingredient_water.csv -P make_ingredients.cmake
# Puts the table into a C++ header as it is; it is read, and every fault of a row named, by core/ingredient.cpp.
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
// made from the table of ingredients; do not edit

#include <string_view>

namespace mellowbin::tables {

inline constexpr std::string_view ingredient_water = R\"csv(${text})csv\";

} // namespace mellowbin::tables
")
