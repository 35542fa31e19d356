#include "app/book/kept_work.h"

#include "app/book/durable_file.h"
#include "exchange/kept_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <fcntl.h>
#include <fstream>
#include <iterator>
#include <sys/file.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;

constexpr const char *kept = ".kept", *locked = ".lock";

fs::path from_environment(const char* name) {
    const char* value = std::getenv(name);
    return value ? fs::path(value) : fs::path();
}

/// One book, one name, from wherever it is opened.
std::string canonical(const std::string& book) {
    if (book == ":memory:")
        return {};
    if (book.find("://") != std::string::npos)
        return book;
    std::error_code failed;
    const auto path = fs::weakly_canonical(fs::absolute(book, failed), failed);
    return failed ? book : path.string();
}

} // namespace

fs::path state_folder() {
    if (const auto given = from_environment("MELLOWBIN_STATE"); !given.empty())
        return given;
    // A relative path there is to be taken for none (XDG base directories).
    if (const auto state = from_environment("XDG_STATE_HOME"); state.is_absolute())
        return state / "mellowbin";
    const auto home = from_environment("HOME");
    return home.empty() ? fs::path() : home / ".local" / "state" / "mellowbin";
}

SlotLock::SlotLock(SlotLock&& other) noexcept : file_(std::exchange(other.file_, -1)) {}

SlotLock& SlotLock::operator=(SlotLock&& other) noexcept {
    std::swap(file_, other.file_);
    return *this;
}

SlotLock::~SlotLock() {
    if (file_ >= 0)
        ::close(file_);
}

bool SlotLock::take(const fs::path& file) {
    const int opened = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (opened < 0)
        throw std::system_error(errno, std::generic_category(), file.string());
    if (::flock(opened, LOCK_EX | LOCK_NB) == 0) {
        SlotLock mine;
        mine.file_ = opened;
        *this = std::move(mine);
        return true;
    }
    const int why = errno;
    ::close(opened);
    if (why == EWOULDBLOCK)
        return false;
    throw std::system_error(why, std::generic_category(), file.string());
}

KeptWork::KeptWork(const std::string& book, fs::path folder, Use use)
    : book_(canonical(book)), folder_(std::move(folder)), use_(use) {
    if (book_.empty())
        return;
    if (folder_.empty()) {
        trouble("this machine names no folder for it (HOME, XDG_STATE_HOME or MELLOWBIN_STATE)");
        return;
    }
    try {
        look_for_left();
        if (keeps())
            hold_a_slot();
    } catch (const std::exception& error) { // of the file system
        trouble(error.what());
    }
}

KeptWork::~KeptWork() {
    try {
        finish();
    } catch (const std::exception&) {
        // The window is gone: nobody is there to be told.
    }
}

fs::path KeptWork::slot_file(int slot, const char* ending) const {
    return folder_ / fmt::format("{}-{}{}", exchange::fingerprint(book_), slot, ending);
}

void KeptWork::look_for_left() {
    if (!fs::exists(folder_))
        return;
    const auto begins = exchange::fingerprint(book_) + "-";
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(folder_))
        if (entry.path().extension() == kept && entry.path().filename().string().starts_with(begins))
            files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    for (const auto& file : files) {
        SlotLock lock;
        if (lock.take(fs::path(file).replace_extension(locked)))
            look_at(file, std::move(lock));
    }
    std::stable_sort(left_.begin(), left_.end(),
                     [](const Held& a, const Held& b) { return a.work.kept_at > b.work.kept_at; });
}

void KeptWork::look_at(const fs::path& file, SlotLock lock) {
    std::ifstream in(file, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    if (!in.is_open() || in.bad())
        return trouble(file.string() + " cannot be read");
    const auto read = exchange::read_kept_file(bytes);
    if (!read)
        return put_aside(file, read.refusals().front().what);
    if (read->book != book_) // of another book with the same fingerprint
        return;
    left_.push_back({std::move(lock), file, {read->begun_at, read->kept_at, read->text}});
}

/// Under a name that nobody looks for, to be looked at by a person.
void KeptWork::put_aside(const fs::path& file, const std::string& why) {
    if (use_ == Use::look)
        return;
    auto aside = fs::path(file).replace_extension(".unreadable");
    for (int n = 2; fs::exists(aside); ++n)
        aside = fs::path(file).replace_extension(fmt::format(".unreadable-{}", n));
    fs::rename(file, aside);
    trouble_ =
        fmt::format("Work that was kept earlier cannot be offered: its file {}. It was put aside as {}.", why,
                    aside.string());
}

/// The first that nobody holds and in which nothing lies.
void KeptWork::hold_a_slot() {
    fs::create_directories(folder_);
    for (int slot = 1; !slot_.is_held(); ++slot) {
        SlotLock lock;
        const auto file = slot_file(slot, kept);
        if (!lock.take(slot_file(slot, locked)) || fs::exists(file))
            continue;
        slot_ = std::move(lock);
        file_ = file;
    }
}

void KeptWork::take_up() {
    if (left_.empty())
        return;
    auto& first = left_.front();
    begun_at_ = std::min(begun_at_.value_or(first.work.begun_at), first.work.begun_at);
    if (keeps()) {
        taken_up_.push_back(std::move(first));
        ++wanted_at_;
    }
    left_.erase(left_.begin());
}

void KeptWork::throw_away() {
    if (left_.empty())
        return;
    std::error_code failed;
    if (keeps() && !fs::remove(left_.front().file, failed) && failed)
        trouble(left_.front().file.string() + ": " + failed.message());
    left_.erase(left_.begin());
}

void KeptWork::keep(const KeptText& text, Instant now) {
    take_result();
    if (text != wanted_) {
        wanted_ = text;
        kept_at_ = now;
        ++wanted_at_;
        if (text.is_empty())
            begun_at_.reset();
        else if (!begun_at_)
            begun_at_ = now;
    }
    begin_writing();
}

void KeptWork::begin_writing() {
    if (!keeps() || folder_.empty() || !is_behind() || writing_.is_running())
        return;
    try {
        if (!slot_.is_held())
            hold_a_slot();
    } catch (const std::exception& error) { // of the file system
        return trouble(error.what());
    }
    being_written_ = wanted_at_;
    // What was taken up stays where it lay until it is in this window's own file.
    goes_with_it_ = wanted_.is_empty() ? 0 : taken_up_.size();
    std::vector<fs::path> gone;
    for (std::size_t i = 0; i < goes_with_it_; ++i)
        gone.push_back(taken_up_[i].file);
    std::string bytes;
    if (wanted_.is_empty())
        gone.push_back(file_);
    else
        bytes = exchange::bytes_of({book_, begun_at_.value_or(kept_at_), kept_at_, wanted_});
    writing_ = Job<std::string>(
        [file = file_, bytes = std::move(bytes), gone = std::move(gone)](const std::stop_token&) {
            auto failed = bytes.empty() ? std::string() : write_durably(file, bytes);
            for (const auto& path : gone)
                if (failed.empty())
                    failed = remove_durably(path);
            return failed;
        });
}

void KeptWork::take_result() {
    if (!writing_.is_done())
        return;
    if (const auto failed = writing_.take(); !failed.empty())
        return trouble(failed);
    written_ = being_written_;
    taken_up_.erase(taken_up_.begin(), taken_up_.begin() + static_cast<std::ptrdiff_t>(goes_with_it_));
    is_told_ = false;
}

bool KeptWork::finish() {
    if (!keeps())
        return wanted_.is_empty();
    for (int tries = 0; tries < 2; ++tries) { // one may be on its way, and the newest comes after it
        begin_writing();
        writing_.wait();
        take_result();
    }
    return !is_behind();
}

void KeptWork::trouble(std::string words) {
    if (std::exchange(is_told_, true))
        return;
    trouble_ =
        fmt::format("What is typed is not kept for the next start: {}. The work goes on; the book is not "
                    "touched by it.",
                    words);
}

std::string KeptWork::take_trouble() { return std::exchange(trouble_, {}); }

} // namespace mellowbin::app
