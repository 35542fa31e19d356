#pragma once

#include "app/book/setup.h"
#include "app/models/welcome.h"
#include "db/progress.h"

#include <filesystem>
#include <memory>
#include <string>

namespace mellowbin::app {

class App;

/// The demo's book beside a person's own: "demo.mbook" in its folder, or another name where that is the
/// person's own.
std::filesystem::path demo_beside(const std::filesystem::path& book);

/// From the name of a book to the application on a book with a plant in it. A book that is not there is not
/// made before a person says so; whatever stands against that is told in words, and then nothing is changed.
class FirstStart {
public:
    /// Opens the book where there is one. One that cannot be opened is told as trouble.
    explicit FirstStart(AppSetup setup);
    ~FirstStart();
    FirstStart(const FirstStart&) = delete;
    FirstStart& operator=(const FirstStart&) = delete;

    /// A person is to choose: there is no book, or nothing in it, or it was not opened.
    [[nodiscard]] bool welcomes() const;
    [[nodiscard]] const WelcomeModel& welcome() const { return welcome_; }
    /// On the book that is open; null: none is, and a person is welcomed.
    [[nodiscard]] App* app() { return app_.get(); }
    [[nodiscard]] const App* app() const { return app_.get(); }

    /// Begins a plant in the person's own book, which is made where there is none, with its folder.
    void set_up();
    /// Opens the demo's book, which is made where there is none: complete, or not at all.
    void look_at_demo(const Progress& progress = {});

private:
    void look();
    std::unique_ptr<App> opened(const std::string& book);
    void make_demo(const Progress& progress);

    AppSetup setup_;
    std::unique_ptr<App> app_;
    WelcomeModel welcome_;
    bool has_chosen_ = false;
};

} // namespace mellowbin::app
