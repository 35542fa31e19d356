#include "ui/views/welcome/welcome.h"

#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <string>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

/// What is asked for, and what that is.
constexpr std::array<std::pair<const char*, const char*>, 6> steps{{
    {"A mill", "who grinds for you"},
    {"A flour", "its specification"},
    {"A place", "bay, silo or rack"},
    {"A line", "mixer and water"},
    {"A product", "its formula"},
    {"Your first lot", "released, and in a run"},
}};

std::string name_of_file(const std::string& path) { return std::filesystem::path(path).filename().string(); }

bool own_plant(const app::WelcomeModel& model) {
    ui::heading("Set up your plant");
    ui::hint("About ten minutes. Stop at any step: what was answered is kept.");
    int number = 0;
    for (const auto& [what, words] : steps)
        ui::fact({.label = fmt::format("{}  {}", ++number, what), .value = "", .note = words});
    ui::gap();
    const bool is_pressed =
        ui::button("Set up your plant", {.kind = ui::ButtonKind::primary, .width = 20_em});
    ui::hint(model.has_book ? fmt::format("In your book {}.", name_of_file(model.book))
                            : fmt::format("Makes your book, {}.", model.book));
    return is_pressed;
}

bool demo(const app::WelcomeModel& model) {
    ui::heading("Look at the demo");
    ui::hint("An invented bakery, ninety days into its work.");
    ui::band_legend();
    ui::fact({.label = "Lots", .value = "", .note = "young, usable, ready, one on hold"});
    ui::fact({.label = "Readiness", .value = "", .note = "each as a band over its days"});
    ui::fact({.label = "Plan", .value = "", .note = "two weeks on two lines"});
    ui::fact({.label = "Mixer", .value = "", .note = "the card of a batch"});
    ui::gap();
    const bool is_pressed = ui::button("Look at the demo", {.width = 20_em});
    ui::hint(
        fmt::format("{} {}, a book of its own: change in it what you like. Your own stays as it is; close "
                    "the window and open mellowbin again to come back to it.",
                    model.has_demo ? "Opens" : "Makes", name_of_file(model.demo)));
    return is_pressed;
}

/// As wide as it reads well, with the same space on both sides.
void in_the_middle(ui::Body body) {
    constexpr ui::Length widest = 62_em, least_space = 1_em;
    const float left = ui::width_left().ems;
    const float space = std::max(least_space.ems, (left - widest.ems) / 2);
    ui::flow([&] {
        ui::stack({space}, [] { ui::gap(1); });
        ui::stack({left - 2 * space - least_space.ems}, body);
    });
}

} // namespace

WelcomeWish draw_welcome(const app::WelcomeModel& model) {
    auto wish = WelcomeWish::none;
    ui::scroll_area("Welcome", {}, [&] {
        ui::gap(8);
        in_the_middle([&] {
            ui::text("mellowbin", {.size = ui::TextSize::key_figure, .weight = ui::Weight::bold});
            ui::paragraph("From the mill's lot to the mixer's card. There is no plant here yet: begin one of "
                          "two ways.",
                          {.size = ui::TextSize::heading, .role = Role::quiet});
            if (!model.trouble.empty())
                ui::loud_panel(Role::stop, "That could not be done", [&] { ui::paragraph(model.trouble); });
            ui::gap(4);
            ui::grid(26_em, [&] {
                ui::panel("", [&] {
                    if (own_plant(model))
                        wish = WelcomeWish::set_up;
                });
                ui::panel("", [&] {
                    if (demo(model))
                        wish = WelcomeWish::look_at_demo;
                });
            });
        });
    });
    return wish;
}

void draw_making_demo(std::string_view what, double share) {
    ui::panel("Making the demo", [&] {
        ui::paragraph("An invented bakery lives its ninety days: deliveries, judgements, plans and doughs.");
        ui::progress({.label = "Demo",
                      .words = fmt::format("{}, about {:.0f} %", what, 100 * share),
                      .done = share,
                      .stop_verb = {}});
        ui::hint("Its book gets its name once it is whole.");
    });
}

} // namespace mellowbin::views
