#pragma once

namespace mellowbin::ui {

/// From here on SIGTERM, SIGHUP and SIGINT no longer end the program by themselves: it is told, and ends
/// after it kept what is begun.
void hear_when_told_to_end();
[[nodiscard]] bool is_told_to_end();

} // namespace mellowbin::ui
