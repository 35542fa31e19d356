#pragma once

#include "core/result.h"

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>

/// Text, laid out on a line of a given width: any script that a font on this machine has.
namespace mellowbin::print {

enum class Side { left, right, centre };

struct Style {
    double points = 10;
    bool is_bold = false;
    Side side = Side::left;
};

/// Words that were laid out. Copies share what was laid out; it never changes.
class Text {
public:
    struct Laid;
    explicit Text(std::shared_ptr<const Laid> laid) : laid_(std::move(laid)) {}

    [[nodiscard]] std::size_t lines() const;
    /// Of its longest line, mm.
    [[nodiscard]] double width_mm() const;
    [[nodiscard]] double height_mm() const { return height_mm(0, lines()); }
    /// Of the lines from `first` up to before `end`, mm.
    [[nodiscard]] double height_mm(std::size_t first, std::size_t end) const;
    [[nodiscard]] const Laid& laid() const { return *laid_; }

private:
    std::shared_ptr<const Laid> laid_;
};

/// Lays text out and keeps account of what no font here can show. One thread.
class Typesetter {
public:
    /// Breaks lines at `width_mm` and nowhere else, between words where that can be; 0: one line as long as
    /// it gets. Signs that are no letters (line ends among them) become blanks.
    Text set(std::string_view words, const Style& style, double width_mm);
    /// One a text and a character in it that no font here has, and one a text that is none.
    /// The faults of another one, too.
    void take_over(const Typesetter& other);
    [[nodiscard]] const Refusals& faults() const { return faults_; }

private:
    void note(Refusal fault);
    Refusals faults_;
};

} // namespace mellowbin::print
