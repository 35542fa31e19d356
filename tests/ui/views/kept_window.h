#pragma once

#include "app/acts/looking.h"
#include "support/catch.h"
#include "ui/views/kept.h"
#include "ui/views/whole_window.h"

#include <string>
#include <vector>

/// Forms that are typed in one window and taken up in a next one.
namespace mellowbin::test {

/// A window that was opened just now and has drawn nothing: only one at a time can draw.
struct NewWindow : ShownModels {
    views::Screens screens;
};

inline KeptText kept(const auto& w) { return views::kept_of(w.screens, w.models()); }

/// A text that no other field has, and that no reader of numbers would leave as it is.
inline std::string next_text() {
    static int number = 0;
    ++number;
    return " typed\t" + std::to_string(number) + ",\n“" + std::to_string(number) + "” ";
}

template <class... Texts> void fill(Texts&... texts) { ((texts = next_text()), ...); }

inline std::vector<FigureDraft> two_figures() {
    std::vector<FigureDraft> figures(2);
    figures[0].property = Property::protein;
    figures[1].property = Property::falling_number;
    for (auto& figure : figures) {
        auto& [property, value, basis, method, nitrogen_factor] = figure;
        fill(value, basis, method, nitrogen_factor);
    }
    return figures;
}

inline LotDraft a_lot() {
    LotDraft draft;
    auto& [code, mill, flour, delivery_note, milled_on, delivered_on, best_before, mass_kg, bag_kg,
           price_per_tonne, place, figures, mill_oxidant, mill_oxidant_ppm, further_additions, certified_on,
           delivered_c, accept_reason, certificate_source, certificate_place, pallets] = draft;
    fill(code, mill, flour, delivery_note, milled_on, delivered_on, best_before, mass_kg, bag_kg,
         price_per_tonne, place, mill_oxidant, mill_oxidant_ppm, certified_on, delivered_c, accept_reason,
         certificate_source, certificate_place);
    figures = two_figures();
    further_additions.resize(2);
    for (auto& [substance, ppm] : further_additions)
        fill(substance, ppm);
    pallets.resize(2);
    for (auto& [sscc, kg] : pallets)
        fill(sscc, kg);
    return draft;
}

/// What it opens.
app::Intents take_up_in(auto& next, const KeptText& text) {
    app::Intents opens;
    views::take_up(next.screens, next.models(), text, opens);
    return opens;
}

/// Lots of a delivery are numbered by their window.
inline bool is_numbering(const std::string& path) {
    return path.starts_with("intake/") &&
           (path.ends_with("/number") || path.ends_with("/line") || path == "intake/at_hand" ||
            path.starts_with("intake/whole/filled/"));
}

/// What was typed is kept, letter by letter; taken up in a window that was just opened it is what it was, to
/// the last field.
inline KeptText stays(const WholeWindow& typed_in, std::size_t begun, views::Screen shown) {
    const auto before = kept(typed_in);
    CHECK(before.begun.size() == begun);
    NewWindow next;
    REQUIRE(kept(next).is_empty());
    take_up_in(next, before);
    CHECK(next.screens.current() == shown);
    // What the application would have opened.
    next.screens.lots.opened = typed_in.screens.lots.opened;
    next.screens.readiness.opened = typed_in.screens.readiness.opened;
    next.screens.mixer.shown = typed_in.screens.mixer.shown;
    const auto after = kept(next);
    CHECK(after.begun.size() == begun);
    for (const auto& [path, text] : before.fields) {
        const auto at = after.fields.find(path);
        if (at == after.fields.end())
            FAIL_CHECK(path << " was \"" << text << "\" and is not there");
        else if (at->second != text && !is_numbering(path))
            FAIL_CHECK(path << " was \"" << text << "\" and is \"" << at->second << "\"");
    }
    CHECK(after.fields.size() == before.fields.size());
    return before;
}

} // namespace mellowbin::test
