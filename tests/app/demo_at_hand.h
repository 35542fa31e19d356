#pragma once

#include "app/demo/book.h"
#include "core/day.h"
#include "support/catch.h"
#include "support/iso.h"

#include <filesystem>
#include <string>
#include <unistd.h>

namespace mellowbin::tests {

inline const Day day_of_demo = day_from_iso("2026-11-25");

/// The demo's book, made once for all tests of the program; each opens it for itself, and writes nothing.
inline const std::string& demo_at_hand() {
    static const std::string path = [] {
        const auto file = std::filesystem::temp_directory_path() /
                          ("mellowbin-demo-" + std::to_string(::getpid()) + ".mbook");
        std::filesystem::remove(file);
        const auto made = app::make_demo_book(file.string(), day_of_demo);
        REQUIRE(made);
        return file.string();
    }();
    return path;
}

} // namespace mellowbin::tests
