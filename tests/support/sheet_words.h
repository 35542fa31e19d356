#pragma once

#include "print/sheet.h"

#include <string>

namespace mellowbin::tests {

/// What a paper says, a block after the other: "# Heading", "!! what is loud", "- bullet", a table's row as
/// "|cell|cell/its second line|*bold*|".
inline std::string words_of(const print::Sheet& sheet) {
    struct Say {
        std::string& out;
        void operator()(const print::Heading& one) const { out += "# " + one.words + "\n"; }
        void operator()(const print::Paragraph& one) const { out += one.words + "\n"; }
        void operator()(const print::Loud& one) const { out += "!! " + one.words + "\n"; }
        void operator()(const print::Bullets& all) const {
            for (const auto& line : all.lines)
                out += "- " + line + "\n";
        }
        void operator()(const print::Table& table) const {
            out += "=";
            for (const auto& column : table.columns)
                out += column.head + "=";
            for (const auto& row : table.rows) {
                out += "\n|";
                for (const auto& cell : row) {
                    for (const auto& line : cell)
                        out += (&line == &cell.front() ? "" : "/") +
                               (line.is_bold ? "*" + line.words + "*" : line.words);
                    out += "|";
                }
            }
            out += "\n";
        }
    };
    std::string out = sheet.title + "\n";
    for (const auto& block : sheet.blocks)
        std::visit(Say{out}, block);
    return out;
}

} // namespace mellowbin::tests
