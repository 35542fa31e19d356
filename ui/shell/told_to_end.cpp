#include "ui/shell/told_to_end.h"

#include <csignal>
#include <initializer_list>

namespace mellowbin::ui {
namespace {

volatile std::sig_atomic_t told = 0;

void tell(int) { told = 1; }

} // namespace

void hear_when_told_to_end() {
    for (const int signal : {SIGTERM, SIGHUP, SIGINT})
        std::signal(signal, tell);
}

bool is_told_to_end() { return told != 0; }

} // namespace mellowbin::ui
