#include "ui/widgets/rows.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui::inner {

RowSpan seen_rows(std::size_t rows, float height) {
    const ImGuiWindow* window = state().context->CurrentWindow;
    const float scroll = window->Scroll.y, high = window->InnerRect.GetHeight();
    const auto from = static_cast<std::size_t>(std::max(0.0f, std::floor(scroll / height)));
    const auto to = static_cast<std::size_t>(std::ceil((scroll + high) / height));
    return {std::min(from, rows), std::min(to, rows)};
}

void scroll_to_row(std::size_t at, float height) {
    ImGuiWindow* window = state().context->CurrentWindow;
    const float top = height * static_cast<float>(at), high = window->InnerRect.GetHeight();
    if (top < window->Scroll.y)
        ImGui::SetScrollY(window, top);
    if (top + height > window->Scroll.y + high)
        ImGui::SetScrollY(window, top + height - high);
    state().quiet_frames = std::max(state().quiet_frames, 2);
}

std::optional<std::size_t> place_of(std::size_t rows, RecordOf record, std::optional<std::int64_t> wanted) {
    if (!wanted)
        return std::nullopt;
    for (std::size_t i = 0; i < rows; ++i)
        if (record(i) == *wanted)
            return i;
    return std::nullopt;
}

std::optional<std::size_t> row_by_key(std::size_t rows, RecordOf record, std::optional<std::int64_t> selected,
                                      float seen_height, float row_height) {
    if (rows == 0 || !state().key)
        return std::nullopt;
    const auto page = static_cast<std::size_t>(std::max(1.0f, std::floor(seen_height / row_height) - 1));
    const auto now = place_of(rows, record, selected);
    const std::size_t at = now.value_or(0), last = rows - 1;
    if (take_key(Key::down))
        return now ? std::min(at + 1, last) : 0;
    if (take_key(Key::up))
        return at > 0 ? at - 1 : 0;
    if (take_key(Key::page_down))
        return std::min(at + page, last);
    if (take_key(Key::page_up))
        return at > page ? at - page : 0;
    if (take_key(Key::home))
        return 0;
    if (take_key(Key::end))
        return last;
    return std::nullopt;
}

bool list_stop(ImGuiID id, std::string_view name, const ImRect& rect) {
    Frame::State& s = state();
    ImGui::ItemAdd(rect, id);
    const bool focused = stop_here(id, name, rect, true);
    if (focused && s.activate == id)
        s.activate = 0;
    if (focused)
        s.focus_is_field = false;
    return focused;
}

void list_edge(const ImRect& rect, bool focused) {
    const bool shown = focused && state().focus_by_key;
    paper().AddRect(rect.Min, rect.Max, shown ? tint(Role::accent) : faint_line(), corner(), 0,
                    (shown ? 2 : 1) * hair());
}

void note_list(std::string_view name, const ImRect& rect, ImGuiID id, bool focused, std::size_t count,
               const char* one) {
    Note* made = note(Kind::text, name, rect, id);
    if (!made)
        return;
    made->value = std::to_string(count) + " " + one + (count == 1 ? "" : "s");
    made->focused = focused;
}

Pressable list_item(std::int64_t record, const char* kind, const ImRect& rect) {
    ImGui::PushID(reinterpret_cast<const void*>(static_cast<std::intptr_t>(record)));
    const Pressable item = pressable(kind, rect, {.stops = Stops::no, .by_key = false, .at_once = true});
    ImGui::PopID();
    return item;
}

Note* note_item(Kind kind, std::string_view label, const ImRect& rect, const Pressable& item, bool chosen) {
    Note* made = note(kind, label, rect, item);
    if (!made)
        return nullptr;
    made->path.resize(made->path.size() - label.size());
    made->path += std::to_string(item.id);
    made->chosen = chosen;
    return made;
}

void draw_empty(std::string_view words, const ImRect& body) {
    const float wrap = std::min(body.GetWidth() - quarters(8), px(Length{30}));
    const ImVec2 size = measure(words, {}, wrap);
    const ImVec2 at{body.Min.x + quarters(4), body.Min.y + quarters(5)};
    draw(at, words, tint(Role::quiet), {}, wrap);
    note_words(words, at, size);
}

} // namespace mellowbin::ui::inner
