# Writes the numbered *.sql of FOLDER into OUT as C++: cmake -DFOLDER=… -DOUT=… -P built_in.cmake
file(GLOB steps RELATIVE ${FOLDER} ${FOLDER}/[0-9][0-9][0-9][0-9]_*.sql)
list(SORT steps)
set(rows "")
set(expected 1)
foreach(step IN LISTS steps)
    string(REGEX MATCH "^0*([1-9][0-9]*)_(.*)\\.sql$" matched ${step})
    set(number ${CMAKE_MATCH_1})
    set(name ${CMAKE_MATCH_2})
    if(NOT number EQUAL expected)
        message(FATAL_ERROR "${step}: the next migration is number ${expected}")
    endif()
    math(EXPR expected "${expected} + 1")
    file(READ ${FOLDER}/${step} sql)
    string(APPEND rows "    {${number}, \"${name}\", R\"step(${sql})step\"},\n")
endforeach()
file(WRITE ${OUT}.new "// Made from db/migrations; do not edit.
#include \"db/migration.h\"

namespace mellowbin {

std::span<const Migration> built_in_migrations() {
    static const Migration steps[] = {
${rows}    };
    return steps;
}

} // namespace mellowbin
")
file(COPY_FILE ${OUT}.new ${OUT} ONLY_IF_DIFFERENT)
