#include "ui/shell/scan_reader.h"

#include <GLFW/glfw3.h>

#include <algorithm>
#include <utility>

namespace mellowbin::ui {
namespace {

constexpr std::size_t first_keys = 4; // by which a scanner is suspected
constexpr std::size_t sure_with_end = 6, sure_without_end = 10, sure_of_identified = 6;
constexpr double pause_in_gaps = 3; // behind a scan, and within one that stumbles
/// A separator this soon behind a character is typed as one also where the scanner is too slow to be told
/// from a person.
constexpr double soon = 0.06;

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool has(const KeyStroke& stroke, int mods) { return (stroke.mods & mods) != 0; }

bool is_separator_key(const KeyStroke& stroke) {
    return stroke.key == GLFW_KEY_RIGHT_BRACKET && has(stroke, GLFW_MOD_CONTROL) &&
           !has(stroke, GLFW_MOD_ALT | GLFW_MOD_SUPER);
}

bool is_modifier(int key) {
    return (key >= GLFW_KEY_LEFT_SHIFT && key <= GLFW_KEY_RIGHT_SUPER) ||
           (key >= GLFW_KEY_CAPS_LOCK && key <= GLFW_KEY_NUM_LOCK);
}

/// A character follows from it.
bool writes(const KeyStroke& stroke) {
    if (has(stroke, GLFW_MOD_CONTROL | GLFW_MOD_ALT | GLFW_MOD_SUPER))
        return false;
    const int key = stroke.key;
    return key == GLFW_KEY_UNKNOWN || (key >= GLFW_KEY_SPACE && key < GLFW_KEY_ESCAPE) ||
           (key >= GLFW_KEY_KP_0 && key <= GLFW_KEY_KP_EQUAL && key != GLFW_KEY_KP_ENTER);
}

/// Enter and Tab, also as the control characters that they are.
std::optional<CaughtScan::End> end_of(const KeyStroke& stroke) {
    using enum CaughtScan::End;
    const int key = stroke.key;
    if (has(stroke, GLFW_MOD_CONTROL)) {
        if (key == GLFW_KEY_M || key == GLFW_KEY_J)
            return enter;
        return key == GLFW_KEY_I ? std::optional(tab) : std::nullopt;
    }
    if (has(stroke, GLFW_MOD_SHIFT | GLFW_MOD_ALT | GLFW_MOD_SUPER))
        return {};
    if (key == GLFW_KEY_ENTER || key == GLFW_KEY_KP_ENTER)
        return enter;
    return key == GLFW_KEY_TAB ? std::optional(tab) : std::nullopt;
}

} // namespace

void spread(std::vector<KeyStroke>& strokes, double from) {
    if (strokes.empty())
        return;
    const auto is_key = [](const KeyStroke& stroke) { return stroke.what == KeyStroke::What::key; };
    const auto keys = std::count_if(strokes.begin(), strokes.end(), is_key);
    const double step = (strokes.back().seconds - from) / static_cast<double>(std::max<long>(1, keys));
    double at = keys == 0 ? strokes.back().seconds : from;
    for (auto& stroke : strokes) {
        if (is_key(stroke))
            at += step;
        stroke.seconds = at; // a character comes with its key
    }
}

double ScanReader::mean_gap() const {
    return count_ < 2 ? 0 : (last_ - first_) / static_cast<double>(count_ - 1);
}

bool ScanReader::is_identified() const {
    std::string begin;
    std::size_t place = 0;
    for (const auto& one : held_) {
        if (!one.counts)
            continue;
        if (one.is_separator && place > 0)
            return true;
        if (place++ < 3)
            begin += one.is_separator ? std::string(1, '\0') : one.stroke.text;
    }
    return begin.size() == 3 && begin[0] == ']' && is_letter(begin[1]) &&
           (is_digit(begin[2]) || is_letter(begin[2]));
}

bool ScanReader::is_suspect() const {
    return mean_gap() <= longest_gap_ && (count_ >= first_keys || is_identified());
}

double ScanReader::longest_wait() const { return is_suspect() ? pause_in_gaps * longest_gap_ : longest_gap_; }

bool ScanReader::goes_on(double seconds) const {
    if (held_.empty() || seconds - held_.back().stroke.seconds > longest_wait())
        return false;
    return count_ == 0 || seconds - first_ <= longest_gap_ * static_cast<double>(count_);
}

bool ScanReader::is_scan(Ended how, double seconds) const {
    if (count_ < first_keys || mean_gap() > longest_gap_)
        return false;
    if (is_identified())
        return how != Ended::pause || count_ >= sure_of_identified;
    if (how == Ended::pause)
        return count_ >= sure_without_end;
    return count_ >= sure_with_end || seconds - first_ <= longest_gap_ / 2 * static_cast<double>(count_);
}

void ScanReader::type(const KeyStroke& stroke) {
    if (stroke.what == KeyStroke::What::text)
        last_typed_ = stroke.seconds;
    typed_.push_back(stroke);
}

void ScanReader::pass_on() {
    for (auto& one : held_) {
        if (one.is_separator && last_typed_ && one.stroke.seconds - *last_typed_ < soon) {
            one.stroke.what = KeyStroke::What::text;
            one.stroke.text = typed_separator;
        }
        type(one.stroke);
    }
    held_.clear();
    count_ = 0;
}

void ScanReader::finish(Ended how, double seconds) {
    if (!is_scan(how, seconds))
        return pass_on();
    CaughtScan scan;
    for (const auto& one : held_)
        if (one.counts)
            scan.bytes += one.is_separator ? std::string("\x1d") : one.stroke.text;
    scan.end = how;
    scan.seconds_a_key = mean_gap();
    scans_.push_back(std::move(scan));
    held_.clear();
    count_ = 0;
    if (how != Ended::pause)
        scan_ended_ = seconds;
}

void ScanReader::hold(const KeyStroke& stroke, bool counts, bool is_separator) {
    held_.push_back({stroke, counts, is_separator});
    if (!counts)
        return;
    if (count_++ == 0)
        first_ = stroke.seconds;
    last_ = stroke.seconds;
}

bool ScanReader::takes_key_of_its_own(double seconds) {
    while (!keys_.empty() && seconds - keys_.front() > longest_gap_)
        keys_.pop_front();
    if (keys_.empty())
        return false;
    keys_.pop_front();
    return true;
}

void ScanReader::hear(const KeyStroke& stroke) {
    wait_until(stroke.seconds);
    if (stroke.what == KeyStroke::What::text)
        hear_text(stroke);
    else if (!is_modifier(stroke.key))
        hear_key(stroke);
}

void ScanReader::hear_text(const KeyStroke& stroke) {
    scan_ended_.reset();
    if (!takes_key_of_its_own(stroke.seconds)) {
        pass_on();
        return type(stroke);
    }
    if (!goes_on(stroke.seconds))
        finish(Ended::pause, stroke.seconds);
    hold(stroke, true);
}

void ScanReader::hear_end(const KeyStroke& stroke, Ended how) {
    const double seconds = stroke.seconds;
    const bool is_second_end = held_.empty() && scan_ended_ && seconds - *scan_ended_ <= 2 * longest_gap_;
    if (is_second_end) { // a scanner that sends two: it presses nothing
        scan_ended_ = seconds;
        return;
    }
    const auto scans = scans_.size();
    scan_ended_.reset();
    if (!held_.empty())
        finish(goes_on(seconds) ? how : Ended::pause, seconds);
    const bool has_ended_one = scans_.size() > scans && scan_ended_;
    if (!has_ended_one)
        type(stroke);
}

void ScanReader::hear_key(const KeyStroke& stroke) {
    const auto end = stroke.is_repeat ? std::nullopt : end_of(stroke);
    if (end)
        return hear_end(stroke, *end);
    scan_ended_.reset();
    const bool is_of_text = !stroke.is_repeat && writes(stroke);
    const bool is_separator = !stroke.is_repeat && is_separator_key(stroke);
    if (!is_of_text && !is_separator) {
        if (is_suspect())
            finish(Ended::pause, stroke.seconds);
        pass_on();
        return type(stroke);
    }
    if (!goes_on(stroke.seconds))
        finish(Ended::pause, stroke.seconds);
    if (is_of_text)
        keys_.push_back(stroke.seconds);
    hold(stroke, is_separator, is_separator);
}

void ScanReader::wait_until(double seconds) {
    if (!held_.empty() && seconds - held_.back().stroke.seconds > longest_wait())
        finish(Ended::pause, seconds);
}

void ScanReader::let_go() {
    if (!is_suspect())
        pass_on();
}

std::optional<double> ScanReader::due() const {
    constexpr double a_moment = 0.001;
    return held_.empty() ? std::nullopt
                         : std::optional(held_.back().stroke.seconds + longest_wait() + a_moment);
}

std::vector<KeyStroke> ScanReader::take_typed() { return std::exchange(typed_, {}); }
std::vector<CaughtScan> ScanReader::take_scans() { return std::exchange(scans_, {}); }

} // namespace mellowbin::ui
