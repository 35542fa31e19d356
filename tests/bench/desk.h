#pragma once

#include "app/acts/intent.h"
#include "app/app.h"
#include "core/day.h"
#include "ui/views/screens.h"
#include "ui/widgets/frame.h"

#include <filesystem>
#include <memory>

namespace mellowbin::bench {

/// A person at a station without a window: acts, and draws the frame that shows what came of it. One a
/// process.
class Desk {
public:
    /// On a book whose writing does not wait for the disk.
    explicit Desk(const std::filesystem::path& book);

    /// Throws std::runtime_error with the notice's words when the act was not done.
    void act(const app::Intent& intent);
    void draw();
    /// The clock goes on to the same hour of the next day.
    void next_day();
    [[nodiscard]] Day today() const;
    [[nodiscard]] app::App& app() { return app_; }
    [[nodiscard]] views::Screens& screens() { return screens_; }

private:
    std::shared_ptr<Instant> now_;
    app::App app_;
    ui::Frame frame_;
    views::Screens screens_;
};

} // namespace mellowbin::bench
