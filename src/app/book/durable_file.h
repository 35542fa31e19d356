#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

namespace mellowbin::app {

/// Who may read a file: nobody else, or whoever the machine lets.
enum class Readers { me, all };

/// Writes the whole file, so that a power cut leaves it as it was or as it is now, and nothing between:
/// beside it first, flushed, then renamed. For nobody else's eyes (mode 0600) unless said otherwise. Why it
/// could not be, in words; empty: it is on the disk.
std::string write_durably(const std::filesystem::path& file, std::string_view bytes,
                          Readers readers = Readers::me);
/// The same for a file that others read, with the rights that new files have here: `make` writes it under the
/// name it is given, and says in words why it could not. What is not whole never bears the file's own name,
/// and does not stay.
std::string make_durably(const std::filesystem::path& file,
                         const std::function<std::string(const std::filesystem::path& unfinished)>& make);
/// Takes the file away in the same way; one that is not there is no failure.
std::string remove_durably(const std::filesystem::path& file);

} // namespace mellowbin::app
