#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <utility>

namespace mellowbin {

/// Hears the share of a work that is done, 0 to 1. Called on the thread that works, as often as the work
/// likes: the hearer decides how often it says something. Must not throw.
using ShareDone = std::function<void(double share)>;

/// The same with what is being done, in words that end no sentence: "copying the book first".
using Progress = std::function<void(std::string_view what, double share)>;

/// A part of a work that takes it from one share to another, for whoever does only that part. Empty where
/// nobody hears.
inline ShareDone part_of(const Progress& progress, std::string what, double from, double to) {
    if (!progress)
        return {};
    return [progress, what = std::move(what), from, to](double share) {
        progress(what, from + (to - from) * share);
    };
}

inline void tell(const ShareDone& share_done, double share) {
    if (share_done)
        share_done(share);
}

} // namespace mellowbin
