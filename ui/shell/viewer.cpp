#include "ui/shell/viewer.h"

#include <spawn.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace mellowbin::ui {

void open_in_viewer(const std::string& file) {
    std::string program = "xdg-open", path = file;
    char* const words[]{program.data(), path.data(), nullptr};
    pid_t child = 0;
    if (posix_spawnp(&child, program.c_str(), nullptr, nullptr, words, environ) != 0)
        return;
    std::thread([child] { waitpid(child, nullptr, 0); }).detach();
}

} // namespace mellowbin::ui
