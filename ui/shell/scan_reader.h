#pragma once

#include <deque>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::ui {

/// A separator as it is typed: seen in a field, and known to what reads scans.
inline constexpr const char* typed_separator = "\u241d";

/// What a keyboard did: a key by GLFW's token, or a character.
struct KeyStroke {
    enum class What { key, text } what = What::key;
    int key = 0, scancode = 0, mods = 0; ///< GLFW's
    bool is_repeat = false;              ///< of a key that is held down
    std::string text = {};               ///< UTF-8, one character
    double seconds = 0;                  ///< when, on any clock that only goes on
};

/// Keys that were waiting when they were fetched came at some time since `from`, when nothing was waiting:
/// they are spread over it evenly. So a person who types while a window is busy is no scanner.
void spread(std::vector<KeyStroke>& strokes, double from);

/// A scan, whole.
struct CaughtScan {
    enum class End { enter, tab, pause };
    std::string bytes; ///< without what ended it; separators as the byte 0x1D
    End end = End::enter;
    double seconds_a_key = 0; ///< from character to character
};

/// Tells a scanner that types from a person, by speed, and holds its keys back so that no field and no
/// shortcut gets them. What a person types goes on in its order, each key later by `longest_gap` at most,
/// once it is plain that no scan begins with it.
///
/// A scan is at least four characters, each soon behind the other, that end in Enter or Tab; as few as six
/// only at twice that speed. Where a pause alone ends it, it is ten. With a symbology identifier in front, or
/// a separator in it, less will do. A character that comes of no key of its own (pasted, of an input method,
/// of a key held down) is never of a scan. The separator is Ctrl and the key at the place of ], whatever the
/// layout has there.
class ScanReader {
public:
    /// Seconds between two keys of a scanner at most; people take longer. (From memory: a scanner sends a key
    /// in 30 to 50 ms at most; see "Scanner" on Settings.)
    void set_longest_gap(double seconds) { longest_gap_ = seconds; }

    void hear(const KeyStroke& stroke);
    /// Nothing else came until now.
    void wait_until(double seconds);
    /// Something else happened that what was typed must come before: a press of the pointer.
    void let_go();
    /// When it must be asked again, if nothing comes; nothing is held back: never.
    [[nodiscard]] std::optional<double> due() const;

    /// What a person did, in its order: keys and characters for the window.
    std::vector<KeyStroke> take_typed();
    std::vector<CaughtScan> take_scans();

private:
    using Ended = CaughtScan::End;
    struct Held {
        KeyStroke stroke;
        bool counts = false; ///< a character or a separator, not only the key of one
        bool is_separator = false;
    };

    void hear_key(const KeyStroke& stroke);
    void hear_text(const KeyStroke& stroke);
    void hear_end(const KeyStroke& stroke, Ended how);
    void hold(const KeyStroke& stroke, bool counts, bool is_separator = false);
    void finish(Ended how, double seconds);
    void pass_on();
    void type(const KeyStroke& stroke);
    /// It may be of the same scan as what is held.
    [[nodiscard]] bool goes_on(double seconds) const;
    [[nodiscard]] double mean_gap() const;
    [[nodiscard]] bool is_suspect() const;
    [[nodiscard]] bool is_identified() const;
    [[nodiscard]] bool is_scan(Ended how, double seconds) const;
    [[nodiscard]] double longest_wait() const;
    bool takes_key_of_its_own(double seconds);

    double longest_gap_ = 0.035;
    std::vector<Held> held_;
    std::size_t count_ = 0;            ///< of what counts in it
    double first_ = 0, last_ = 0;      ///< when the first and last of these came
    std::deque<double> keys_;          ///< when keys were pressed whose characters have not come yet
    std::optional<double> scan_ended_; ///< by a key, and nothing came since
    std::optional<double> last_typed_; ///< when the last character that was passed on came
    std::vector<KeyStroke> typed_;
    std::vector<CaughtScan> scans_;
};

} // namespace mellowbin::ui
