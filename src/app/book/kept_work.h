#pragma once

#include "app/book/job.h"
#include "core/day.h"
#include "core/kept_text.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

/// Where this station keeps work begun: the folder that MELLOWBIN_STATE names, else
/// $XDG_STATE_HOME/mellowbin, else ~/.local/state/mellowbin; empty on a machine that names none of them.
std::filesystem::path state_folder();

/// What a window that is gone had begun.
struct LeftWork {
    Instant begun_at, kept_at; ///< UTC
    KeptText text;
};

/// A place in the folder that one window holds by a lock on a file of its own, as long as this lives. The
/// lock goes with its window, however that ends.
class SlotLock {
public:
    SlotLock() = default;
    SlotLock(SlotLock&& other) noexcept;
    SlotLock& operator=(SlotLock&& other) noexcept;
    ~SlotLock();
    /// False where another window holds it. Throws std::system_error where the folder takes no lock.
    bool take(const std::filesystem::path& file);
    [[nodiscard]] bool is_held() const { return file_ >= 0; }

private:
    int file_ = -1;
};

/// Keeps what is typed in one window on one book, in a file that a crash or a power cut leaves whole: written
/// beside, flushed, renamed. Windows on the same book have a slot each. What windows that are gone left is
/// offered to one window that is there. No failure of the folder gets in the way of the work: it is told
/// once. Writing goes on a thread of its own; all else is the window's thread.
class KeptWork {
public:
    enum class Use {
        keep,
        look, ///< reads what was left and writes nothing: for pictures
    };
    /// `book` is a path, or how else the book is reached; of ":memory:" nothing is kept.
    KeptWork(const std::string& book, std::filesystem::path folder, Use use = Use::keep);
    ~KeptWork();
    KeptWork(const KeptWork&) = delete;
    KeptWork& operator=(const KeptWork&) = delete;

    /// The newest that was left, until it is taken up or thrown away; null: none.
    [[nodiscard]] const LeftWork* left() const { return left_.empty() ? nullptr : &left_.front().work; }
    /// It stands in this window now: its own file goes as soon as what the window keeps is on the disk.
    void take_up();
    void throw_away();

    /// What is begun in this window now; of several that come while one is written the newest is written
    /// next. Nothing begun: nothing is kept any more. Costs a comparison where it is the same as before. To
    /// be called again after a while: what could not be written is tried again.
    void keep(const KeptText& text, Instant now);
    /// Waits until the newest is on the disk; false: it could not be brought there.
    bool finish();
    /// The newest text is not on the disk yet.
    [[nodiscard]] bool is_behind() const { return written_ != wanted_at_; }
    /// Why work is not kept, or cannot be read, in a sentence; told once, until it went well in between.
    std::string take_trouble();

private:
    struct Held {
        SlotLock lock;
        std::filesystem::path file;
        LeftWork work;
    };

    [[nodiscard]] bool keeps() const { return !book_.empty() && use_ == Use::keep; }
    [[nodiscard]] std::filesystem::path slot_file(int slot, const char* ending) const;
    void look_for_left();
    void look_at(const std::filesystem::path& file, SlotLock lock);
    void put_aside(const std::filesystem::path& file, const std::string& why);
    void hold_a_slot();
    void begin_writing();
    void take_result();
    void trouble(std::string words);

    std::string book_; ///< canonical; empty: nothing is kept
    std::filesystem::path folder_;
    Use use_ = Use::keep;
    SlotLock slot_;
    std::filesystem::path file_;
    std::vector<Held> left_;     ///< the newest first
    std::vector<Held> taken_up_; ///< until this window's own file is there
    KeptText wanted_;
    std::optional<Instant> begun_at_;
    Instant kept_at_;
    // Texts are counted: which is wanted, which is on the disk, which is being written.
    std::uint64_t wanted_at_ = 0, written_ = 0, being_written_ = 0;
    std::size_t goes_with_it_ = 0; ///< of those taken up, how many go when it is written
    Job<std::string> writing_;
    std::string trouble_;
    bool is_told_ = false;
};

} // namespace mellowbin::app
