#pragma once

#include <csignal>
#include <sys/resource.h>

namespace mellowbin::testing {

/// Files of this process may not grow beyond so many bytes: as on a full disk.
class FullDisk {
public:
    explicit FullDisk(rlim_t bytes = 0) {
        ::getrlimit(RLIMIT_FSIZE, &before_);
        const rlimit most{bytes, before_.rlim_max};
        handler_ = std::signal(SIGXFSZ, SIG_IGN);
        ::setrlimit(RLIMIT_FSIZE, &most);
    }
    ~FullDisk() {
        ::setrlimit(RLIMIT_FSIZE, &before_);
        std::signal(SIGXFSZ, handler_);
    }
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;

private:
    rlimit before_{};
    void (*handler_)(int) = nullptr;
};

} // namespace mellowbin::testing
