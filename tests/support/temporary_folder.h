#pragma once

#include <cstdlib>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>

namespace mellowbin::tests {

/// An empty folder that goes with its scope. In memory where there is such a place: what a process leaves
/// behind when it dies is the same there, and the disk's real syncing would make tests many times as long.
class TemporaryFolder {
public:
    TemporaryFolder() {
        namespace fs = std::filesystem;
        const fs::path in_memory = "/dev/shm";
        std::error_code ignored;
        const bool has_memory = fs::space(in_memory, ignored).available > 32'000'000 && !ignored;
        std::string name =
            ((has_memory ? in_memory : fs::temp_directory_path()) / ("mellowbin-test-" + std::string(6, 'X')))
                .string();
        if (::mkdtemp(name.data()) == nullptr)
            throw std::runtime_error("no temporary folder could be made");
        path_ = name;
    }
    ~TemporaryFolder() {
        std::error_code ignored;
        std::filesystem::permissions(path_, std::filesystem::perms::owner_all, ignored);
        std::filesystem::remove_all(path_, ignored);
    }
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;

    std::filesystem::path operator/(std::string_view name) const { return path_ / name; }
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

private:
    std::filesystem::path path_;
};

} // namespace mellowbin::tests
