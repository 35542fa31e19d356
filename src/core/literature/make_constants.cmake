# cmake -DCONSTANTS=constants.csv -DSOURCES=sources.csv -DHEADER=constants.h -P make_constants.cmake
# Turns the two tables into a C++ header. Stops, naming file and line, at a row that does not fit.
cmake_minimum_required(VERSION 3.25)

# The lines of a CSV file as a list, with the characters that mean something to CMake lists put aside.
function(read_lines file result)
    file(READ ${file} text)
    string(REPLACE "\r" "" text "${text}")
    string(REPLACE "\\" "<backslash>" text "${text}")
    string(REPLACE ";" "<semicolon>" text "${text}")
    string(REPLACE "[" "<open>" text "${text}")
    string(REPLACE "]" "<close>" text "${text}")
    string(REGEX REPLACE "\n+$" "" text "${text}")
    string(REPLACE "\n" ";" text "${text}")
    set(${result} "${text}" PARENT_SCOPE)
endfunction()

# One line of RFC 4180 into cell_0, cell_1, … of the caller; stops unless there are exactly `count`.
function(split_cells line count where)
    set(rest "${line},")
    set(index 0)
    while(NOT rest STREQUAL "")
        if(rest MATCHES "^\"(([^\"]|\"\")*)\",(.*)$")
            set(cell "${CMAKE_MATCH_1}")
            set(rest "${CMAKE_MATCH_3}")
            string(REPLACE "\"\"" "\"" cell "${cell}")
        elseif(rest MATCHES "^([^\",]*),(.*)$")
            set(cell "${CMAKE_MATCH_1}")
            set(rest "${CMAKE_MATCH_2}")
        else()
            message(FATAL_ERROR "${where}: a quote is not closed or stands inside a cell")
        endif()
        set(cell_${index} "${cell}" PARENT_SCOPE)
        math(EXPR index "${index} + 1")
    endwhile()
    if(NOT index EQUAL count)
        message(FATAL_ERROR "${where}: ${index} columns were read, ${count} are expected")
    endif()
endfunction()

# A cell as the inside of a C++ string literal.
function(literal cell result)
    string(REPLACE "<backslash>" "\\\\" cell "${cell}")
    string(REPLACE "\"" "\\\"" cell "${cell}")
    set(${result} "${cell}" PARENT_SCOPE)
endfunction()

function(restore text result)
    string(REPLACE "<semicolon>" ";" text "${text}")
    string(REPLACE "<open>" "[" text "${text}")
    string(REPLACE "<close>" "]" text "${text}")
    set(${result} "${text}" PARENT_SCOPE)
endfunction()

set(number "^[-+]?[0-9]+(\\.[0-9]+)?([eE][-+]?[0-9]+)?$")

read_lines(${SOURCES} lines)
list(POP_FRONT lines head)
if(NOT head STREQUAL "key,reference")
    message(FATAL_ERROR "${SOURCES}:1: the columns must be key,reference")
endif()
set(line_number 1)
set(source_keys "")
set(source_rows "")
foreach(line IN LISTS lines)
    math(EXPR line_number "${line_number} + 1")
    split_cells("${line}" 2 "${SOURCES}:${line_number}")
    if(NOT cell_0 MATCHES "^[a-z][a-z0-9_]*$" OR cell_0 IN_LIST source_keys)
        message(FATAL_ERROR "${SOURCES}:${line_number}: a key of its own, in small letters, is expected")
    endif()
    list(APPEND source_keys ${cell_0})
    literal("${cell_1}" reference)
    string(APPEND source_rows "    Source{\"${cell_0}\", \"${reference}\"},\n")
endforeach()
list(LENGTH source_keys source_count)

read_lines(${CONSTANTS} lines)
list(POP_FRONT lines head)
if(NOT head STREQUAL "key,value,unit,low,high,conditions,source,place_in_source,basis_of_figure,checked_by,checked_on")
    message(FATAL_ERROR "${CONSTANTS}:1: not the expected columns: ${head}")
endif()
set(line_number 1)
set(keys "")
set(variables "")
set(entries "")
foreach(line IN LISTS lines)
    math(EXPR line_number "${line_number} + 1")
    set(where "${CONSTANTS}:${line_number}")
    split_cells("${line}" 11 "${where}")
    if(NOT cell_0 MATCHES "^[a-z][a-z0-9_]*$" OR cell_0 IN_LIST keys)
        message(FATAL_ERROR "${where}: a key of its own, in small letters, is expected")
    endif()
    foreach(column 1 3 4)
        if(NOT cell_${column} MATCHES "${number}")
            message(FATAL_ERROR "${where}: value, low and high must be numbers: \"${cell_${column}}\"")
        endif()
    endforeach()
    if(NOT cell_6 IN_LIST source_keys)
        message(FATAL_ERROR "${where}: ${SOURCES} has no source \"${cell_6}\"")
    endif()
    if(NOT cell_8 MATCHES "^(read|computed|from memory|assumption)$")
        message(FATAL_ERROR "${where}: the basis of the figure must be read, computed, from memory or assumption")
    endif()
    string(REPLACE " " "_" basis "${cell_8}")
    foreach(column 2 5 7 9 10)
        literal("${cell_${column}}" cell_${column})
    endforeach()
    list(APPEND keys ${cell_0})
    string(APPEND variables "inline constexpr Constant ${cell_0}{\"${cell_0}\", ${cell_1}, \"${cell_2}\", ${cell_3}, "
        "${cell_4},\n    \"${cell_5}\",\n    \"${cell_6}\", \"${cell_7}\", FigureBasis::${basis}, \"${cell_9}\", \"${cell_10}\"};\n")
    string(APPEND entries "    ${cell_0},\n")
endforeach()
list(LENGTH keys count)

file(SHA256 ${CONSTANTS} version)
string(SUBSTRING ${version} 0 12 version)
restore("${source_rows}" source_rows)
restore("${variables}" variables)
file(WRITE ${HEADER} "#pragma once
// made from constants.csv and sources.csv; do not edit

#include \"core/literature/constant.h\"

#include <array>
#include <string_view>

namespace mellowbin::literature {

/// Which state of constants.csv an estimate was made with.
inline constexpr std::string_view table_version = \"${version}\";

${variables}
inline constexpr std::array<Constant, ${count}> all_constants{
${entries}};

inline constexpr std::array<Source, ${source_count}> all_sources{
${source_rows}};

} // namespace mellowbin::literature
")
