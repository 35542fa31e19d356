#pragma once

#include "app/demo/first_start.h"
#include "support/iso.h"
#include "support/screen.h"
#include "ui/views/screens.h"

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

namespace mellowbin::tests {

/// The window as a person meets it, without a display: it draws the welcome or the screens, carries out what
/// was done and draws again. The book lies in a folder that goes with it.
class FirstWindow {
public:
    FirstWindow();
    ~FirstWindow();
    FirstWindow(const FirstWindow&) = delete;
    FirstWindow& operator=(const FirstWindow&) = delete;

    /// The window closed, or the power lost, and opened again on the same book.
    void open_again();
    [[nodiscard]] testing::Screen& screen() { return *screen_; }
    [[nodiscard]] app::App& app() { return *start_->app(); }
    [[nodiscard]] views::Screens& screens() { return *screens_; }
    [[nodiscard]] std::string book() const { return (folder_ / "plant.mbook").string(); }
    [[nodiscard]] static Day today() { return day_from_iso("2026-11-25"); }

    // By the words on the screen, with the pointer.
    void choose(const std::string& field, const std::string& word);

    // By key alone.
    void tab_to(std::string_view words);
    void type_at(std::string_view field, std::string_view text);
    void choose_at(std::string_view field, std::string_view word);
    void press_at(std::string_view button);

private:
    void draw();

    std::filesystem::path folder_;
    std::unique_ptr<app::FirstStart> start_;
    std::unique_ptr<views::Screens> screens_;
    std::unique_ptr<testing::Screen> screen_;
};

} // namespace mellowbin::tests
