#include "ui/widgets/dialog.h"

#include "ui/widgets/frame.h"
#include "ui/widgets/inner.h"
#include "ui/widgets/layout.h"
#include "ui/widgets/text.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

constexpr ImU32 veil = IM_COL32(20, 17, 13, 120);

/// A card in the middle of the window, as high as what stands in it (known from the frame before), at most
/// the window.
void card_in_the_middle(std::string_view title, Role edge, Body body) {
    begin_layer(title, veil);
    push_name(title);
    const FrameSetup& setup = state().setup;
    const float margin = quarters(6), pad = quarters(5), top_edge = quarters(1.25f);
    const float width = std::min(px(Length{34}), setup.width - 2 * margin);
    const ImGuiID height_id = id_of("height");
    const float wanted = std::max(state().remembered[height_id], px(Length{8}));
    const float height = std::min(wanted, setup.height - 2 * margin);
    const ImVec2 at{std::round((setup.width - width) / 2), std::round((setup.height - height) * 0.42f)};
    const ImRect rect{at, at + ImVec2(width, height)};
    paper().AddRectFilled(rect.Min, rect.Max, tint(Role::panel), corner() * 1.5f);
    paper().AddRectFilled(rect.Min, {rect.Max.x, rect.Min.y + top_edge}, tint(edge), corner() * 1.5f,
                          ImDrawFlags_RoundCornersTop);
    note(Kind::dialog, title, rect);
    float reached = 0;
    scrolling("card", {rect.Min + ImVec2(0, top_edge), rect.Max}, pad, [&] {
        const float from = ImGui::GetCursorScreenPos().y;
        heading(title);
        body();
        reached = place().reached - from;
    });
    const float now = top_edge + reached + 2 * pad;
    if (std::abs(now - wanted) > 0.5f)
        state().quiet_frames = std::max(state().quiet_frames, 2);
    state().remembered[height_id] = now;
    pop_name();
    end_layer();
}

} // namespace

Answer ask(const Question& question, Body body) {
    Answer answer = Answer::none_yet;
    state().asks = true;
    const Role edge = question.deed_kind == ButtonKind::stop ? Role::stop : Role::accent;
    card_in_the_middle(question.title, edge, [&] {
        Frame::State& s = state();
        s.forms.push_back(id_of("form"));
        const bool is_new = layer_is_new();
        if (body) {
            s.first_field = s.first_empty = 0;
            body();
            gap(1);
        }
        const ImGuiID first = s.first_empty ? s.first_empty : s.first_field;
        const bool enter_does_it = question.deed_blocked.empty() && s.layer == s.top_layer &&
                                   s.focus_is_field && s.focus_takes_enter &&
                                   s.focus_form == s.forms.back() && take_key(Key::enter);
        flow([&] {
            if (button(question.harmless))
                answer = Answer::harmless;
            if (is_new)
                focus_in_layer(body && first ? first : id_of(question.harmless));
            if (button(question.deed, {.kind = question.deed_kind, .blocked = question.deed_blocked}) ||
                enter_does_it)
                answer = Answer::deed;
        });
        if (s.layer == s.top_layer && take_key(Key::escape))
            answer = Answer::harmless;
        s.forms.pop_back();
    });
    return answer;
}

bool is_asked() { return state().asked; }

bool failure_box(const Failure& failure) {
    bool done = false;
    card_in_the_middle(failure.title, Role::stop, [&] {
        const bool is_new = layer_is_new();
        paragraph(failure.meaning);
        paragraph(failure.remedy);
        float& unfolded = state().remembered[id_of("unfolded")];
        if (unfolded > 0 && !failure.details.empty()) {
            gap(1);
            paragraph(failure.details, {.role = Role::quiet});
        }
        gap(1);
        flow([&] {
            if (button("Go on", {.kind = ButtonKind::primary}))
                done = true;
            if (is_new)
                focus_in_layer(id_of("Go on"));
            if (failure.details.empty())
                return;
            if (button(unfolded > 0 ? "Hide details" : "Show details", {.kind = ButtonKind::quiet}))
                unfolded = unfolded > 0 ? 0.0f : 1.0f;
            if (button("Copy details", {.kind = ButtonKind::quiet}))
                copy_to_clipboard(failure.details);
        });
        if (state().layer == state().top_layer && take_key(Key::escape))
            done = true;
    });
    return done;
}

} // namespace mellowbin::ui
