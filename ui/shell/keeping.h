#pragma once

#include "app/acts/intent.h"
#include "app/book/clock.h"
#include "app/book/kept_work.h"
#include "ui/views/screens.h"

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <string>

namespace mellowbin::ui {

/// Work begun in one window between its screens and the folder where it is kept: asked after every frame. It
/// draws nothing and knows no window.
class Keeping {
public:
    enum class After { nothing, closing };
    using Pause = std::chrono::steady_clock::duration;

    /// Looks for what was left of this book. What is typed is written once in `pause` at most.
    Keeping(const std::string& book, std::filesystem::path folder, app::KeptWork::Use use,
            Pause pause = std::chrono::milliseconds(250));

    /// What the screens say of kept work in the next frame; the clock is the plant's.
    void tell(views::Screens& screens, const app::Clock& clock);
    /// After a frame: carries out what was answered in it, and keeps what is typed. `out` opens the records
    /// of work that was taken up. `closing`: the person said that the window may go, and it may.
    [[nodiscard]] After follow(views::Screens& screens, const views::Models& models, Instant now,
                               app::Intents& out);
    /// Something typed waits to be written: look in again soon.
    [[nodiscard]] bool is_behind() const { return waits_ || work_.is_behind(); }
    /// The window is to be closed: true where nothing is begun; else the screens ask.
    [[nodiscard]] bool may_close(views::Screens& screens, const views::Models& models, Instant now);
    /// Brings to the disk what is begun, and asks nobody; false: it could not.
    bool end(const views::Screens& screens, const views::Models& models, Instant now);

private:
    app::KeptWork work_;
    Pause pause_;
    std::chrono::steady_clock::time_point next_{};
    bool waits_ = false;
    std::uint64_t notice_ = 0; ///< seen last
    bool was_answered_ = false;
};

} // namespace mellowbin::ui
