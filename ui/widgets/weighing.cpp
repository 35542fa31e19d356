#include "ui/widgets/weighing.h"

#include "ui/widgets/inner.h"
#include "ui/widgets/layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

namespace mellowbin::ui {

using namespace inner;

namespace {

using Rank = WeighedRow::Rank;
using Box = WeighedRow::Box;

constexpr Words note_words_style{TextSize::mixer_note, Weight::regular};

/// A triangle, an eight-sided plate or a tick: the shape says it without the colour.
void draw_sign(Role role, ImVec2 middle, float r) {
    const ImU32 ink = tint(Role::panel), hole = tint(role);
    if (role == Role::mind) {
        paper().AddTriangleFilled(middle + ImVec2(0, -r), middle + ImVec2(r, r * 0.85f),
                                  middle + ImVec2(-r, r * 0.85f), ink);
        paper().AddRectFilled(middle + ImVec2(-r * 0.09f, -r * 0.35f), middle + ImVec2(r * 0.09f, r * 0.3f),
                              hole);
        paper().AddCircleFilled(middle + ImVec2(0, r * 0.55f), r * 0.11f, hole);
        return;
    }
    if (role == Role::stop) {
        std::array<ImVec2, 8> plate;
        for (std::size_t i = 0; i < plate.size(); ++i) {
            const float angle = (static_cast<float>(i) + 0.5f) * 0.78539816f;
            plate[i] = middle + ImVec2(std::cos(angle) * r, std::sin(angle) * r);
        }
        paper().AddConvexPolyFilled(plate.data(), static_cast<int>(plate.size()), ink);
        paper().AddRectFilled(middle + ImVec2(-r * 0.55f, -r * 0.14f), middle + ImVec2(r * 0.55f, r * 0.14f),
                              hole);
        return;
    }
    const std::array tick{middle + ImVec2(-r * 0.7f, 0), middle + ImVec2(-r * 0.2f, r * 0.55f),
                          middle + ImVec2(r * 0.75f, -r * 0.55f)};
    paper().AddPolyline(tick.data(), static_cast<int>(tick.size()), ink, 0, r * 0.26f);
}

/// Words in at most so many lines; what is too long ends in "…".
void draw_lines(ImVec2 at, float width, int most, std::string_view words, ImU32 colour, Words style) {
    const Typeface face = state().fonts.face(style.size, style.weight);
    measure(words, style); // asks for its characters
    const auto lines = lines_of(words, face, width);
    for (int i = 0; i < most && i < static_cast<int>(lines.size()); ++i) {
        const auto& one = lines[static_cast<std::size_t>(i)];
        const bool is_cut = i + 1 == most && static_cast<int>(lines.size()) > most;
        const auto rest = is_cut ? std::string(one) + " …" : std::string(one);
        draw_clipped(at, width, rest, colour, style);
        at.y += face.size;
    }
}

/// Heights of a row by its rank: as they would like to be, and as low as they go.
struct Heights {
    float lot, water, other;
    [[nodiscard]] float of(Rank rank) const {
        return rank == Rank::lot ? lot : rank == Rank::water ? water : other;
    }
    [[nodiscard]] float of(std::span<const WeighedRow> rows) const {
        float all = 0;
        for (const auto& row : rows)
            all += of(row.rank);
        return all;
    }
};

Heights heights_for(std::span<const WeighedRow> rows, float room) {
    const Heights liked{grown(60), grown(88), grown(36)}, low{grown(49), grown(72), grown(29)};
    const float spare = (room - low.of(rows)) / std::max(1.0f, liked.of(rows) - low.of(rows));
    const float share = std::clamp(spare, 0.0f, 1.0f);
    const auto between = [&](float least, float most) { return std::floor(least + (most - least) * share); };
    return {between(low.lot, liked.lot), between(low.water, liked.water), between(low.other, liked.other)};
}

/// Where things stand in a row: shares of the width, so that all rows share them.
struct Columns {
    float box, label, counted_right, number_right, side, right;
};

Columns columns_of(const ImRect& rect) {
    const float width = rect.GetWidth();
    return {rect.Min.x + grown(16),
            rect.Min.x + grown(72),
            rect.Min.x + std::round(width * 0.405f),
            rect.Min.x + std::round(width * 0.648f),
            rect.Min.x + std::round(width * 0.722f),
            rect.Max.x - grown(8)};
}

Words number_style(Rank rank, bool waits) {
    const Weight weight = waits ? Weight::regular : Weight::bold;
    switch (rank) {
    case Rank::water:
        return {TextSize::mixer_water, weight};
    case Rank::lot:
        return {TextSize::mixer_text, weight};
    case Rank::other:
        break;
    }
    return {TextSize::mixer_amount, weight};
}

Words label_style(Rank rank, bool waits) {
    if (rank == Rank::lot)
        return {TextSize::mixer_text, waits ? Weight::regular : Weight::bold};
    return {rank == Rank::water ? TextSize::mixer_amount : TextSize::mixer_name, Weight::regular};
}

void draw_box(Box box, ImVec2 middle) {
    if (box == Box::none)
        return;
    const float r = grown(20);
    const ImRect rect{middle - ImVec2(r, r), middle + ImVec2(r, r)};
    const Role role = box == Box::done ? Role::good : box == Box::stopped ? Role::stop : Role::mind;
    if (box == Box::open) {
        paper().AddRect(rect.Min, rect.Max, tint(role), grown(5), 0, grown(3));
        return;
    }
    paper().AddRectFilled(rect.Min, rect.Max, tint(role), grown(5));
    draw_sign(box == Box::done ? Role::good : Role::panel, middle, r * 0.7f);
    if (box == Box::stopped)
        paper().AddRectFilled(middle - ImVec2(r * 0.5f, r * 0.13f), middle + ImVec2(r * 0.5f, r * 0.13f),
                              tint(Role::panel));
}

/// On the row's middle, all sizes on one base line: fonts of one family keep it at one share of their line.
float top_of(float middle, const ImVec2& size, const ImVec2& largest) {
    return std::round(middle - largest.y / 2 + (largest.y - size.y) * 0.785f);
}

void draw_side(const WeighedRow& row, const Columns& at, const ImRect& rect) {
    const float width = at.right - at.side;
    if (!row.beside.empty()) {
        const Words style{TextSize::mixer_figure, row.waits ? Weight::regular : Weight::bold};
        const Words unit{TextSize::mixer_amount, Weight::regular};
        const ImVec2 size = measure(row.beside, style);
        const float middle = rect.GetCenter().y;
        draw({at.side, top_of(middle, size, size)}, row.beside, tint(row.waits ? Role::quiet : Role::ink),
             style);
        draw({at.side + size.x + grown(8), top_of(middle, measure(row.beside_unit, unit), size)},
             row.beside_unit, tint(Role::quiet), unit);
        return;
    }
    const float high = measure("0", note_words_style).y;
    const bool both = !row.note.empty() && !row.state.empty() && row.rank == Rank::lot;
    const float step =
        std::min(high, std::floor(rect.GetHeight() / 2)); // the lines may stand a little closer
    float y = std::round(rect.GetCenter().y - (both ? step + (high - step) / 2 : high / 2));
    if (!row.note.empty() && (both || row.state.empty())) {
        draw_clipped({at.side, y}, width, row.note, tint(Role::quiet), note_words_style);
        note_words(row.note, {at.side, y}, {width, high});
        y += step;
    }
    if (row.state.empty())
        return;
    const Words strong{TextSize::mixer_note, row.state_role == Role::good ? Weight::regular : Weight::bold};
    draw_clipped({at.side, y}, width, row.state, tint(row.state_role), strong);
    note_words(row.state, {at.side, y}, {width, high});
}

void draw_amount(const WeighedRow& row, const Columns& at, float middle) {
    const ImU32 ink = tint(row.waits ? Role::quiet : Role::ink), quiet = tint(Role::quiet);
    if (!row.withheld.empty()) {
        const Words style{TextSize::mixer_amount, Weight::bold};
        const ImVec2 size = measure(row.withheld, style);
        draw({std::max(at.number_right - size.x, at.label), middle - size.y / 2}, row.withheld,
             tint(Role::stop), style);
        note_words(row.withheld, {at.number_right - size.x, middle - size.y / 2}, size);
        return;
    }
    const Words style = number_style(row.rank, row.waits);
    const ImVec2 size = measure(row.number.empty() ? "0" : row.number, style);
    const Words unit{row.rank == Rank::water ? TextSize::mixer_amount : TextSize::mixer_name,
                     Weight::regular};
    if (!row.counted.empty()) {
        const ImVec2 count = measure(row.counted, style);
        draw({at.counted_right - count.x, top_of(middle, count, count)}, row.counted, ink, style);
        const auto words =
            row.is_more_weighed ? std::string(row.counted_unit) + " +" : std::string(row.counted_unit);
        draw({at.counted_right + grown(6), top_of(middle, measure(words, unit), count)}, words, quiet, unit);
    }
    if (row.number.empty())
        return;
    draw({at.number_right - size.x, top_of(middle, size, size)}, row.number, ink, style);
    draw({at.number_right + grown(8), top_of(middle, measure(row.unit, unit), size)}, row.unit, quiet, unit);
}

/// What a reader would say of the row.
std::string in_words(const WeighedRow& row) {
    if (!row.withheld.empty())
        return std::string(row.withheld);
    std::string words;
    if (!row.counted.empty())
        words = fmt::format("{} {}", row.counted, row.counted_unit);
    if (!row.counted.empty() && !row.number.empty())
        words += " + ";
    if (!row.counted.empty() && !row.number.empty())
        words += fmt::format("{} {}", row.number, row.unit);
    else if (!row.number.empty())
        words += row.number;
    return words;
}

void draw_row(const WeighedRow& row, const ImRect& rect, const ImRect& paper_of_all) {
    const Columns at = columns_of(paper_of_all);
    const float middle = rect.GetCenter().y;
    if (row.tint != Role::panel)
        paper().AddRectFilled(rect.Min, rect.Max, mix(Role::panel, row.tint, 0.1f));
    draw_box(row.box, {at.box + grown(20), middle});
    const Words style = label_style(row.rank, row.waits);
    const float until = row.counted.empty()
                            ? at.number_right - measure(row.number, number_style(row.rank, row.waits)).x
                            : at.counted_right - measure(row.counted, number_style(row.rank, row.waits)).x;
    const Role ink = row.box == Box::stopped ? Role::stop : row.waits ? Role::quiet : Role::ink;
    draw_clipped({at.label, middle - measure(row.label, style).y / 2}, until - at.label - grown(8), row.label,
                 tint(ink), style);
    draw_amount(row, at, middle);
    draw_side(row, at, rect);
    if (Note* made = note(Kind::figure, row.label, rect)) {
        made->value = in_words(row);
        if (row.counted.empty() && row.withheld.empty())
            made->unit = row.unit;
    }
    if (!row.beside.empty())
        if (Note* made = note(Kind::figure, std::string(row.label) + " temperature", rect)) {
            made->value = row.beside;
            made->unit = row.beside_unit;
        }
}

} // namespace

void verdict_strip(const VerdictStrip& strip) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const Words word{TextSize::mixer_figure, Weight::bold}, bold{TextSize::mixer_name, Weight::bold},
        regular{TextSize::mixer_name, Weight::regular};
    const float height = grown(84), pad = grown(20), r = grown(24);
    const ImRect rect{spot.at, spot.at + ImVec2(spot.width, height)};
    const ImU32 ink = tint(Role::panel);
    paper().AddRectFilled(rect.Min, rect.Max, tint(strip.role), corner());
    const float middle = rect.GetCenter().y;
    draw_sign(strip.role, {rect.Min.x + pad + r, middle}, r);
    const ImVec2 size = measure(strip.word, word);
    const float word_left = rect.Min.x + pad + 2 * r + grown(20);
    draw({word_left, middle - size.y / 2}, strip.word, ink, word);
    const float left = word_left + size.x + grown(28), width = rect.Max.x - pad - left;
    const float high = measure("0", bold).y;
    if (width > 4 * em()) {
        const bool is_short = !strip.then.empty();
        const float lines = is_short || measure(strip.first, bold).x > width ? 2 : 1;
        draw_lines({left, middle - lines * high / 2}, width, is_short ? 1 : 2, strip.first, ink, bold);
        if (is_short)
            draw_lines({left, middle}, width, 1, strip.then, ink, regular);
    }
    note_words(strip.word, {word_left, middle - size.y / 2}, size);
    note_words(strip.first, {left, rect.Min.y}, {std::max(1.0f, width), height / 2});
    note_words(strip.then, {left, middle}, {std::max(1.0f, width), height / 2});
    close_spot(spot, spot.width, height, 2);
}

void weighing_table(std::span<const WeighedRow> rows) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float room = std::max(left_height(), grown(160));
    const Heights heights = heights_for(rows, room);
    const float all = heights.of(rows), shown = std::min(all, room);
    const ImRect rect{spot.at, spot.at + ImVec2(spot.width, shown)};
    paper().AddRectFilled(rect.Min, rect.Max, tint(Role::panel), corner());
    push_name("To weigh");
    const auto body = [&] {
        const Spot inside = open_spot(place().width, Claim::whole_row);
        const ImRect paper_of_all{inside.at, inside.at + ImVec2(inside.width, all)};
        float y = inside.at.y;
        for (std::size_t i = 0; i < rows.size(); ++i) {
            const float high = heights.of(rows[i].rank);
            draw_row(rows[i], {{inside.at.x, y}, {inside.at.x + inside.width, y + high}}, paper_of_all);
            y += high;
            const bool ends_part = i + 1 < rows.size() && rows[i].rank != rows[i + 1].rank;
            if (i + 1 < rows.size())
                paper().AddRectFilled({inside.at.x, y - hair()}, {inside.at.x + inside.width, y},
                                      ends_part ? border_line() : faint_line());
        }
        close_spot(inside, inside.width, all, 0);
    };
    scrolling("weighing", rect, 0, body);
    pop_name();
    paper().AddRect(rect.Min, rect.Max, faint_line(), corner(), 0, hair());
    close_spot(spot, spot.width, shown, 2);
}

void aim(const Aim& aim) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const Words label{TextSize::mixer_name, Weight::regular}, number{aim.size, Weight::bold};
    const ImVec2 words = measure(aim.label, label), size = measure(aim.number, number),
                 unit = measure(aim.unit, label);
    const float right = spot.at.x + spot.width - (aim.unit.empty() ? 0 : unit.x + grown(8));
    float height = std::max(words.y, size.y);
    const float middle = spot.at.y + height / 2;
    const bool fits = words.x + grown(12) + size.x <= right - spot.at.x;
    draw({spot.at.x, fits ? top_of(middle, words, size) : spot.at.y}, aim.label, tint(Role::ink), label);
    if (fits) {
        draw({right - size.x, top_of(middle, size, size)}, aim.number, tint(Role::ink), number);
        draw({right + grown(8), top_of(middle, unit, size)}, aim.unit, tint(Role::quiet), label);
    } else {
        const ImVec2 wrapped = measure(aim.number, note_words_style, spot.width);
        draw({spot.at.x, spot.at.y + words.y}, aim.number, tint(Role::ink), note_words_style, spot.width);
        height = words.y + wrapped.y;
    }
    if (Note* made = note(Kind::figure, aim.label, {spot.at, spot.at + ImVec2(spot.width, height)})) {
        made->value = aim.number;
        made->unit = aim.unit;
    }
    close_spot(spot, spot.width, height, 0.5f);
}

void batches_in(int done, int shown, int all) {
    constexpr int most = 24;
    if (all < 1 || all > most)
        return;
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float space = grown(4), height = grown(12);
    const float width = (spot.width - space * static_cast<float>(all - 1)) / static_cast<float>(all);
    for (int i = 0; i < all; ++i) {
        const float x = spot.at.x + static_cast<float>(i) * (width + space);
        const ImRect cell{{x, spot.at.y}, {x + width, spot.at.y + height}};
        if (i < done)
            paper().AddRectFilled(cell.Min, cell.Max, tint(Role::good), grown(2));
        else
            paper().AddRect(cell.Min, cell.Max, i + 1 == shown ? tint(Role::accent) : border_line(), grown(2),
                            0, i + 1 == shown ? grown(3) : hair());
    }
    note_words(fmt::format("{} of {} batches are in", done, all), spot.at, {spot.width, height});
    close_spot(spot, spot.width, height, 2);
}

} // namespace mellowbin::ui
