#pragma once

#include "app/acts/intent.h"
#include "app/acts/notice.h"
#include "app/app.h"
#include "app/models/lots.h"
#include "app/models/planned_run.h"
#include "support/iso.h"

#include <filesystem>
#include <memory>
#include <string>

namespace mellowbin::tests {

/// A plant with one mill, one flour, two bays, one line and two products, in a book of its own that goes with
/// it.
class SmallPlant {
public:
    explicit SmallPlant(Day today = day_from_iso("2026-11-25"));
    /// With another plant file, of which the mill and the first place are called as in the other one.
    SmallPlant(Day today, const std::string& plant_file);
    ~SmallPlant();
    SmallPlant(const SmallPlant&) = delete;
    SmallPlant& operator=(const SmallPlant&) = delete;

    [[nodiscard]] app::App& app() { return *app_; }
    [[nodiscard]] std::string book_path() const { return (folder_ / "book.mbook").string(); }
    /// A lot that is taken in without a word: milled half a year ago, inside every window.
    [[nodiscard]] LotDraft draft(const std::string& code) const;
    /// The program closed and opened again on the same book.
    void open_again();
    /// The same on a later day.
    void open_again_on(Day day);
    /// Takes the lot in and releases it.
    LotId released_lot(const LotDraft& draft);
    LotId lot(const std::string& code);
    RunId add_run(const std::string& product, const std::string& day, const std::string& batches);
    /// Makes a plan for a week and adopts it.
    void plan_week();

    [[nodiscard]] const app::LotRow& row(const std::string& code);
    [[nodiscard]] const app::PlannedRun& planned(RunId run);
    [[nodiscard]] std::string said() { return app_->notice().words; }
    [[nodiscard]] bool was_done() { return app_->notice().kind == app::Notice::Kind::done; }
    [[nodiscard]] bool was_refused() { return app_->notice().kind == app::Notice::Kind::refused; }
    /// All refusals on one line each.
    [[nodiscard]] std::string refusals();

    /// Does it, or fails the test with what was said.
    void done(const app::Intent& intent);
    /// Why it was refused; fails the test where it was not.
    std::string refused(const app::Intent& intent);
    /// Takes back what was done last, as its notice offers.
    void undo();

private:
    std::filesystem::path folder_;
    Day today_;
    std::unique_ptr<app::App> app_;
};

} // namespace mellowbin::tests
