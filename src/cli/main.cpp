#include "app/book/setup.h"
#include "cli/command_line.h"

#ifdef MELLOWBIN_HAS_WINDOW
#include "ui/shell/app_window.h"
#endif

#include <chrono>
#include <cstdlib>
#include <iostream>
#include <string>
#include <vector>

namespace {

std::string from_environment(const char* name) {
    const char* value = std::getenv(name);
    return value ? value : "";
}

} // namespace

int main(int argc, char** argv) {
    using namespace mellowbin;
    [[maybe_unused]] const auto started = std::chrono::steady_clock::now();
    const std::string login = from_environment("USER");
    cli::World world{std::cout,
                     std::cerr,
                     from_environment("HOME"),
                     from_environment("XDG_DATA_HOME"),
                     login.empty() ? "somebody" : login,
                     {},
                     &std::cin};
#ifdef MELLOWBIN_HAS_WINDOW
    world.open_window = [started](const app::AppSetup& setup, const cli::WindowWish& wish) {
        const ui::Opening opening{wish.shot,
                                  wish.screen,
                                  wish.open,
                                  wish.is_dark ? ui::Palette::dark : ui::Palette::light,
                                  static_cast<float>(wish.text_size),
                                  wish.width,
                                  wish.height,
                                  started};
        return ui::open_window(setup, opening);
    };
#endif
    return cli::run(std::vector<std::string>(argv + 1, argv + argc), world);
}
