# cmake -DHEADER=limits_text.h -DLITERATURE=… -P make_limits.cmake
# Puts the tables of limits into a C++ header as they are, so that the program carries them; they are read, and every
# fault of a row named, by dough/limits.cpp.
cmake_minimum_required(VERSION 3.25)

function(embed file name)
    file(READ ${file} text)
    string(LENGTH "${text}" length)
    if(length GREATER 60000)
        message(FATAL_ERROR "${file} is longer than one string literal may be")
    endif()
    string(FIND "${text}" ")csv\"" found)
    if(NOT found EQUAL -1)
        message(FATAL_ERROR "${file} holds the end mark of the literal")
    endif()
    file(APPEND ${HEADER} "inline constexpr std::string_view ${name} = R\"csv(${text})csv\";\n\n")
endfunction()

file(WRITE ${HEADER} "#pragma once
// made from the tables of limits; do not edit

#include <string_view>

namespace mellowbin::dough::tables {

")
foreach(table oxidant_limits former_oxidant_limits markets propionate_limits former_propionate_limits)
    embed(${LITERATURE}/${table}.csv ${table})
endforeach()
file(APPEND ${HEADER} "} // namespace mellowbin::dough::tables\n")
