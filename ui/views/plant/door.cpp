#include "ui/views/plant/door.h"

#include "core/typed_text.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

constexpr const char* key = "door_checks";
constexpr std::string_view label = "Checks at the door";

/// What is to be done with one line.
struct LineAct {
    enum class What { up, down, take_off } what;
    std::size_t line;
};

std::optional<LineAct> line_fields(std::vector<std::string>& lines, std::size_t i) {
    std::optional<LineAct> act;
    const auto name = fmt::format("Check {}", i + 1);
    ui::scope(name, [&] {
        ui::flow([&] {
            ui::text(fmt::format("{}", i + 1), {.role = ui::Role::quiet});
            ui::text_field({.label = name, .width = 24_em, .label_place = ui::LabelPlace::hidden}, lines[i]);
            using What = LineAct::What;
            if (i > 0 && ui::button("Move up", {.kind = ui::ButtonKind::quiet}))
                act = {What::up, i};
            if (i + 1 < lines.size() && ui::button("Move down", {.kind = ui::ButtonKind::quiet}))
                act = {What::down, i};
            if (ui::button("Take off", {.kind = ui::ButtonKind::quiet}))
                act = {What::take_off, i};
        });
    });
    return act;
}

void do_act(std::vector<std::string>& lines, const LineAct& act) {
    switch (act.what) {
    case LineAct::What::up:
        std::swap(lines[act.line], lines[act.line - 1]);
        break;
    case LineAct::What::down:
        std::swap(lines[act.line], lines[act.line + 1]);
        break;
    case LineAct::What::take_off:
        lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(act.line));
        break;
    }
}

/// "[temperature] stands for …: 30 °C now."
std::string limit_words(const app::SettingsModel& settings) {
    const auto* warm = choice_named(settings, "warm_flour");
    return fmt::format(
        "Write [temperature] where the plant's limit is to stand{}. It is set on Settings, The "
        "plant's choices: Flour is delivered warm from.",
        warm ? fmt::format(", {} {} now", warm->value, warm->unit) : "");
}

bool is_empty(const std::vector<std::string>& lines) {
    return std::all_of(lines.begin(), lines.end(),
                       [](const std::string& line) { return trimmed(line).empty(); });
}

void buttons(PlantChoices& choices, const app::PlantModel& model, const std::vector<std::string>& lines,
             const app::Notice& notice, app::Intents& out) {
    const bool is_typed = choices.typed.contains(key);
    const bool is_sent = choices.asked.is_waiting() && choices.sent == key;
    ui::flow([&] {
        if (ui::button("Keep the checks", {.kind = ui::ButtonKind::primary,
                                           .blocked = is_sent           ? "are being kept"
                                                      : !is_typed       ? "nothing was changed"
                                                      : is_empty(lines) ? "ask one thing at least"
                                                                        : ""}))
            choices.ask(key, joined(lines), notice, out);
        if (is_typed && ui::button("As it stands", {.kind = ui::ButtonKind::quiet}))
            choices.forget(key);
    });
    if (ui::button("The usual five", {.blocked = is_typed                ? "keep or drop what you typed first"
                                                 : !model.has_own_checks ? "they are asked now"
                                                                         : ""}))
        choices.ask(key, "", notice, out);
}

} // namespace

std::vector<std::string> lines_of(std::string_view text) {
    std::vector<std::string> lines;
    for (;;) {
        const auto end = text.find('\n');
        lines.emplace_back(text.substr(0, end));
        if (end == std::string_view::npos)
            return lines;
        text = text.substr(end + 1);
    }
}

std::string joined(const std::vector<std::string>& lines) {
    std::string text;
    for (std::size_t i = 0; i < lines.size(); ++i)
        text += (i > 0 ? "\n" : "") + lines[i];
    return text;
}

void draw_door_checks(PlantChoices& choices, const app::PlantModel& model, const app::SettingsModel& settings,
                      const app::Notice& notice, app::Intents& out) {
    const auto typed = choices.typed.find(key);
    auto lines = typed == choices.typed.end() ? model.door_checks : lines_of(typed->second);
    ui::filling_panel(label, [&] {
        ui::hint("Asked of every delivery, a line each. A yes is well, a no holds the lots it names.");
        ui::form("Checks", [&] {
            std::optional<LineAct> act;
            for (std::size_t i = 0; i < lines.size(); ++i)
                if (const auto one = line_fields(lines, i))
                    act = one;
            if (act)
                do_act(lines, *act);
            if (ui::button("Add a check"))
                lines.emplace_back();
            ui::hint(limit_words(settings));
            if (lines == model.door_checks)
                choices.typed.erase(key);
            else
                choices.typed[key] = joined(lines);
            ui::all_refusals(choices.sent == key ? choices.asked.refusals : Refusals{});
            buttons(choices, model, lines, notice, out);
        });
        if (const auto* row = choice_named(settings, key); row && !row->since.empty())
            ui::hint(fmt::format("Changed by {}, {}.", row->who, row->since));
    });
}

} // namespace mellowbin::views
