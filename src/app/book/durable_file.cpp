#include "app/book/durable_file.h"

#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <system_error>
#include <unistd.h>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;

std::string failure(const fs::path& file) {
    return file.string() + ": " + std::generic_category().message(errno);
}

bool write_all(int file, std::string_view bytes) {
    while (!bytes.empty()) {
        const auto written = ::write(file, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR)
            continue;
        if (written < 0)
            return false;
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

/// A name in it is there, or gone, after a power cut as well. A file system that cannot flush a folder has
/// done what it can.
void flush_folder_of(const fs::path& file) {
    const auto folder = file.parent_path();
    const int opened = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (opened < 0)
        return;
    ::fsync(opened);
    ::close(opened);
}

/// What others wrote under the name is on the disk.
bool flush(const fs::path& file) {
    const int opened = ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
    if (opened < 0)
        return false;
    const bool is_flushed = ::fsync(opened) == 0;
    ::close(opened);
    return is_flushed;
}

} // namespace

std::string write_durably(const fs::path& file, std::string_view bytes, Readers readers) {
    const auto beside = fs::path(file) += ".new";
    const mode_t mode = readers == Readers::all ? 0666 : 0600;
    const int opened = ::open(beside.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, mode);
    if (opened < 0)
        return failure(beside);
    std::string failed;
    if (!write_all(opened, bytes) || ::fsync(opened) != 0)
        failed = failure(beside);
    if (::close(opened) != 0 && failed.empty())
        failed = failure(beside);
    if (failed.empty() && std::rename(beside.c_str(), file.c_str()) != 0)
        failed = failure(file);
    if (failed.empty())
        flush_folder_of(file);
    else
        ::unlink(beside.c_str());
    return failed;
}

std::string make_durably(const fs::path& file, const std::function<std::string(const fs::path&)>& make) {
    const auto unfinished = fs::path(file) += ".unfinished";
    auto failed = make(unfinished);
    if (failed.empty() && !flush(unfinished))
        failed = failure(unfinished);
    if (failed.empty() && std::rename(unfinished.c_str(), file.c_str()) != 0)
        failed = failure(file);
    if (failed.empty())
        flush_folder_of(file);
    else
        ::unlink(unfinished.c_str());
    return failed;
}

std::string remove_durably(const fs::path& file) {
    if (::unlink(file.c_str()) != 0)
        return errno == ENOENT ? std::string() : failure(file);
    flush_folder_of(file);
    return {};
}

} // namespace mellowbin::app
