#pragma once

#include "core/result.h"

#include <chrono>
#include <filesystem>
#include <string>
#include <string_view>

/// Papers on their way out: into a file or to the system's printers.
namespace mellowbin::app {

/// Writes a paper, whole or not at all. Refused: a folder that is not there, a disk that is full, a file of
/// this name that is none of this program's papers.
Result<Done> write_paper(const std::filesystem::path& file, std::string_view pdf);

/// Which of the system's queues, and what is in its tray.
struct Printing {
    std::string queue; ///< as `lpstat -p` names it
    std::string media; ///< "A4", "Letter", "Custom.105x148mm"
    std::string title; ///< as the queue shows it
    std::string program = "lp";
    std::chrono::milliseconds time{20'000}; ///< for it to take the paper, not to print it
};
/// Hands the paper over; what the queue calls it, in its words. Refused: no such queue, no program to print
/// with, a queue that does not answer.
Result<std::string> send_to_printer(const Printing& printing, std::string_view pdf);

} // namespace mellowbin::app
