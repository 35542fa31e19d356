// Records of the plant, complaints and the assistant's steps: typed, kept, and taken up in a window just
// opened.

#include "ui/views/kept_window.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::test;
using views::Screen;

namespace {

/// Every field of a record of the kind, and two lines of each of its lists.
PlantDraft a_record(PlantKind kind) {
    PlantDraft draft;
    auto& [its_kind, texts, windows, second_windows, climate, ingredients] = draft;
    its_kind = kind;
    for (const auto& field : plant_fields(kind))
        texts[std::string(field.key)] = next_text();
    for (auto* list : {&windows, &second_windows})
        for (auto& [property, low, high, method] : (list->resize(2), *list))
            fill(property, low, high, method);
    climate.resize(2);
    for (auto& [from, temperature] : climate)
        fill(from, temperature);
    ingredients.resize(2);
    for (auto& [name, percent, water, temperature] : ingredients)
        fill(name, percent, water, temperature);
    return draft;
}

} // namespace

TEST_CASE("A record of the plant half typed is kept with all its fields, a new one too") {
    WholeWindow w(Screen::plant);
    w.screen.settle();
    auto& view = w.screens.plant;
    for (const auto kind : all_plant_kinds())
        view.records.form.drafts[{kind, 0}] = {a_record(kind), blank_draft(kind)};
    const auto& bay = w.plant.of(PlantKind::place).front();
    view.records.form.drafts[bay.record] = {a_record(PlantKind::place), bay.draft};
    view.choices.typed["door_checks"] = next_text();
    const auto text = stays(w, 7, Screen::plant);
    CHECK(std::find(text.begun.begin(), text.begun.end(), "a new product") != text.begun.end());
    CHECK(std::find(text.begun.begin(), text.begun.end(), "a change of place " + bay.name) !=
          text.begun.end());
}

TEST_CASE(
    "A complaint and an answer half typed are kept with all their fields, and the mill's record is open") {
    WholeWindow w(Screen::plant);
    w.screen.settle();
    auto& view = w.screens.plant;
    const auto& mill = w.plant.of(PlantKind::mill).front();
    const MillId id{mill.record.number};
    view.show_record(id);
    auto& forms = view.mill_record.complaints;
    forms.is_open = true;
    {
        auto& [lot, property, subject, words, kg, noticed_on] = forms.complaint.begin(id);
        fill(lot, property, subject, words, kg, noticed_on);
    }
    {
        auto& [words, answered_on] = forms.answer.begin(ComplaintId{7});
        fill(words, answered_on);
    }
    forms.answer.open = ComplaintId{7};
    forms.taking_back.emplace();
    forms.taking_back->what = views::AnsweredId{4};
    fill(forms.taking_back->words, forms.taking_back->reason);
    const auto text = stays(w, 3, Screen::plant);
    CHECK(std::find(text.begun.begin(), text.begun.end(), "a complaint to " + mill.name) != text.begun.end());
    NewWindow next;
    take_up_in(next, text);
    CHECK(next.screens.plant.mill_page == views::PlantView::record_of_mill);
    CHECK(next.screens.plant.records.form.open == mill.record);
    CHECK(next.screens.plant.mill_record.complaints.is_open);
}

TEST_CASE("What is typed at a step of the assistant is kept, and the assistant is open again") {
    WholeWindow w(Screen::intake);
    w.screen.settle();
    auto& view = w.screens.assistant;
    view.plant = {next_text(), next_text(), "", ""};
    for (const auto kind : all_plant_kinds())
        view.form_of(kind) = {{kind, 0}, a_record(kind), blank_draft(kind)};
    view.lot = {a_lot(), next_text(), true};
    view.run = {next_text(), next_text(), next_text(), next_text(), false};
    view.reason = next_text();
    const auto text = stays(w, 9, Screen::intake);
    NewWindow next;
    take_up_in(next, text);
    CHECK(next.screens.assistant.is_open);
    CHECK(next.screens.assistant.form_of(PlantKind::line).draft == view.form_of(PlantKind::line).draft);
}
