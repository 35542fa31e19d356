#pragma once

namespace mellowbin::ui {

/// A separator as it is typed: seen in a field, and known to what reads scans.
inline constexpr const char* typed_separator = "\u241d";

/// A scanner that types sends the group separator as Ctrl+]: a key without a character, which nothing that
/// reads text would hear. On other layouts a person's Ctrl and plus is that very key, so that it counts as a
/// separator only in the midst of characters that come as fast as no person types.
class ScanKeys {
public:
    /// A character was typed at this time, in seconds.
    void typed(double seconds) { last_ = seconds; }
    /// This key, by its GLFW token, is a separator.
    [[nodiscard]] bool is_separator(int glfw_key, int glfw_mods, double seconds) const;

private:
    double last_ = -1;
};

} // namespace mellowbin::ui
