#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::tests {

/// A display of its own, which nobody looks at, with a keyboard that is pressed through the server (XTEST):
/// no key ever goes to a screen where a person works.
class Display {
public:
    /// Nothing where the machine has no Xvfb.
    static std::unique_ptr<Display> open();
    ~Display();
    Display(const Display&) = delete;
    Display& operator=(const Display&) = delete;

    /// ":7", for the environment of a program.
    [[nodiscard]] const std::string& name() const;
    /// Waits until a window stands there and has the keyboard; false: none came in time.
    bool has_window(std::chrono::seconds wait);
    /// Presses and lets go of the key of this letter or digit (of an American keyboard).
    void type(char letter);
    /// The key of this X11 name: "F9", "Return".
    void press(const char* key);
    /// As a scanner that types: a key each `gap`, for any sign of ASCII; the byte 0x1D is Ctrl and the key at
    /// the place of ], whatever the layout has there.
    void scan(std::string_view bytes, std::chrono::milliseconds gap);

private:
    struct Opened;
    explicit Display(std::unique_ptr<Opened> opened);
    std::unique_ptr<Opened> opened_;
};

/// A program that was started beside this one, and is killed with its scope.
class StartedProgram {
public:
    /// `environment`: "NAME=value", beside what this program has.
    StartedProgram(const std::vector<std::string>& words, const std::vector<std::string>& environment);
    ~StartedProgram();
    StartedProgram(const StartedProgram&) = delete;
    StartedProgram& operator=(const StartedProgram&) = delete;

    /// Ends it as a power cut does: it is not asked.
    void kill();
    [[nodiscard]] bool is_running();
    void tell(int signal);
    /// Its exit code, once it ended by itself; nothing: it did not in time.
    std::optional<int> ended(std::chrono::seconds wait);

private:
    int process_ = 0;
    std::optional<int> code_;
};

} // namespace mellowbin::tests
