#include "terminal.h"

#include "cli/command_line.h"

#include <atomic>
#include <fstream>
#include <sstream>
#include <unistd.h>
#include <utility>

namespace mellowbin::tests {

Terminal::Terminal() {
    static std::atomic<int> count{0};
    folder_ = std::filesystem::temp_directory_path() /
              ("mellowbin-cli-" + std::to_string(::getpid()) + "-" + std::to_string(count++));
    std::filesystem::create_directories(folder_);
}

Terminal::~Terminal() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
}

int Terminal::type(std::vector<std::string> words) {
    std::ostringstream out_stream, err_stream;
    std::istringstream in_stream(std::exchange(in, {}));
    cli::World world{out_stream, err_stream, folder_.string(), "", "tester", {}, &in_stream};
    const int code = cli::run(words, world);
    out = out_stream.str();
    err = err_stream.str();
    return code;
}

int Terminal::on_book(std::vector<std::string> words) {
    words.insert(words.end(), {"--book", book(), "--today", today});
    return type(std::move(words));
}

void Terminal::write(const std::string& name, const std::string& bytes) const {
    std::ofstream(file(name), std::ios::binary) << bytes;
}

} // namespace mellowbin::tests
