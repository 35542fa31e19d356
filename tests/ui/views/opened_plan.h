#pragma once

#include "app/acts/levers.h"
#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "support/catch.h"
#include "support/screen.h"
#include "ui/models/lots.h"
#include "ui/models/plan.h"
#include "ui/views/plan/view.h"

#include <algorithm>
#include <utility>

namespace mellowbin::tests {

using namespace mellowbin;
using testing::Screen;
using ui::Key;

struct Opened {
    app::PlanModel model = test::a_week();
    app::LotsModel lots = test::seven_lots();
    views::PlanView view;
    app::Notice notice;
    app::Overview overview;
    app::Intents asked;
    Screen screen{[this] { draw(view, model, lots, notice, overview, asked); }};

    explicit Opened(app::PlanModel plan = test::a_week()) : model(std::move(plan)) {}
    template <class T> std::vector<T> all() const {
        std::vector<T> found;
        for (const auto& intent : asked)
            if (const auto* one = intent.as<T>())
                found.push_back(*one);
        return found;
    }
    /// But for how a chosen run stands.
    bool asks_nothing() const {
        return std::all_of(asked.begin(), asked.end(), [](const auto& intent) {
            return intent.template as<app::ShowCures>() != nullptr;
        });
    }
    void choose(int run) {
        view.choose(run);
        screen.settle();
    }
    /// The only intent of this kind.
    template <class T> T only() const {
        const auto found = all<T>();
        INFO(screen.words());
        REQUIRE(found.size() == 1);
        return found[0];
    }
    void press_at(float x, float y) {
        screen.point_at(x, y);
        screen.ui().pointer_pressed();
        screen.settle();
    }
    void let_go() {
        screen.ui().pointer_released();
        screen.settle();
    }
    /// Presses a run's card near its top and moves to a point, without letting go.
    void drag_run(std::string_view title, float x, float y) {
        const auto card = screen.find(title).rect;
        press_at(card.left + 20, card.top + 14);
        screen.point_at((card.left + x) / 2, (card.top + y) / 2);
        screen.point_at(x, y);
    }
    /// The last row of lots on a card of two.
    std::pair<float, float> last_lot_of(std::string_view title) const {
        const auto card = screen.find(title).rect;
        return {card.left + 40, card.top + 82};
    }
    /// The upper part of a day's column on a line, seen from the cards of it.
    std::pair<float, float> on_day(int days_from_pan, float y) const {
        const auto pan = screen.find("Pan bread").rect, bun = screen.find("Bun").rect;
        return {pan.left + 20 + static_cast<float>(days_from_pan) * (bun.left - pan.left), y};
    }
};

} // namespace mellowbin::tests
