#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace mellowbin::tests {

/// A person at a terminal, with a folder of their own for books and files.
class Terminal {
public:
    Terminal();
    ~Terminal();
    Terminal(const Terminal&) = delete;
    Terminal& operator=(const Terminal&) = delete;

    /// Runs a command; the exit code. What it said is in out and err.
    int type(std::vector<std::string> words);
    /// The same on this terminal's book, as of 2026-11-25.
    int on_book(std::vector<std::string> words);
    [[nodiscard]] std::string file(const std::string& name) const { return (folder_ / name).string(); }
    void write(const std::string& name, const std::string& bytes) const;
    [[nodiscard]] std::string book() const { return file("book.mbook"); }

    std::string out, err;
    std::string today = "2026-11-25"; ///< of the commands on the book
    std::string in;                   ///< what is typed at the next command

private:
    std::filesystem::path folder_;
};

} // namespace mellowbin::tests
