#pragma once

#include "app/acts/plant_records.h"
#include "app/app.h"
#include "app/book/clock.h"
#include "app/book/setup.h"
#include "app/models/intake.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/plant.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"
#include "app/small_plant.h"
#include "support/catch.h"
#include "support/screen.h"
#include "ui/views/screens.h"

#include <algorithm>
#include <stdexcept>
#include <string>
#include <string_view>

namespace mellowbin::tests {

/// The window over the application at a small plant's book, on the Plant screen; and Ines at a second
/// station, on the same book.
struct PlantWindow {
    SmallPlant plant;
    app::App office{{plant.book_path(), "Ines", app::Clock::standing_at(day_from_iso("2026-11-25"))}};
    views::Screens screens;
    bool is_begun = false;
    testing::Screen screen{[this] { frame(); }};

    PlantWindow() = default;
    explicit PlantWindow(const std::string& plant_file) : plant(day_from_iso("2026-11-25"), plant_file) {}

    /// What the shell does in one.
    void frame() {
        if (!is_begun)
            screens.show(views::Screen::plant);
        is_begun = true;
        auto& app = plant.app();
        app.poll();
        app::Intents did;
        views::draw(screens,
                    {app.notice(), app.overview(), app.intake(), app.lots(), app.readiness(), app.plan(),
                     app.mixer(), app.plant(), app.settings(), app.setting_up(), app.trace()},
                    did);
        for (const auto& intent : did)
            app.handle(intent);
    }

    /// The record as the book has it.
    const app::PlantRow& row(PlantKind kind, std::string_view name) {
        for (const auto& row : plant.app().plant().of(kind))
            if (row.name == name)
                return row;
        throw std::runtime_error("there is no " + std::string(name));
    }
    bool has(PlantKind kind, std::string_view name) {
        const auto& rows = plant.app().plant().of(kind);
        return std::any_of(rows.begin(), rows.end(), [&](const auto& row) { return row.name == name; });
    }
    std::string text(PlantKind kind, std::string_view name, std::string_view key) {
        return row(kind, name).draft.text(key);
    }
    /// What was just done is read, and put away: it lies over nothing any more.
    void put_away() {
        if (screen.offers("Put away"))
            screen.click("Put away");
    }
    /// On the page of its kind, with its form.
    void open(std::string_view page, std::string_view name) {
        put_away();
        screen.click(page);
        screen.click(name);
    }
    /// One of a field's answers, side by side or under each other.
    void choose(const std::string& field, const std::string& answer) {
        if (!screen.offers(field + "/" + answer))
            screen.click(field + "/" + field);
        screen.click(field + "/" + answer);
    }
    /// Ines changes one field of it.
    void office_changes(PlantKind kind, std::string_view name, const std::string& key,
                        const std::string& text) {
        office.poll();
        const auto& rows = office.plant().of(kind);
        const auto at =
            std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return row.name == name; });
        REQUIRE(at != rows.end());
        auto draft = at->draft;
        draft.texts[key] = text;
        office.handle(app::KeepPlantRecord{at->record, draft, at->draft});
        INFO(office.notice().words);
        REQUIRE(office.notice().kind == app::Notice::Kind::done);
        screen.settle();
    }
    /// All that is refused on the screen, a line each.
    std::string refusals() const {
        std::string all;
        for (const auto& note : screen.probe().notes())
            if (note.kind == ui::Kind::refusal)
                all += note.label + "\n";
        return all;
    }
};

} // namespace mellowbin::tests
