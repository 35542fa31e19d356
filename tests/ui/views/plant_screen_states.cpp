#include "ui/views/screen_states.h"

namespace mellowbin::test {
namespace {

using views::PlantView;
using views::Screen;

std::function<void(WholeWindow&)> opened(PlantKind kind, std::size_t at) {
    return [kind, at](WholeWindow& w) { w.screens.plant.show(w.plant.of(kind)[at].record); };
}

std::function<void(WholeWindow&)> page(PlantView::Page page) {
    return [page](WholeWindow& w) { w.screens.plant.page = page; };
}

void nothing_yet(WholeWindow& w) {
    w.plant.rows = {};
    w.plant.flours.clear();
}

app::PlantRow& pan_bread(WholeWindow& w) {
    return w.plant.rows[static_cast<std::size_t>(PlantKind::product)].front();
}

void type(WholeWindow& w, const app::PlantRow& row, const PlantDraft& draft) {
    w.screens.plant.show(row.record);
    w.screens.plant.records.form.drafts[row.record] = {draft, row.draft};
}

void product_refused(WholeWindow& w) {
    const auto& row = pan_bread(w);
    auto draft = row.draft;
    draft.texts["batch_flour_kg"] = "lots";
    draft.texts["dough_temperature_c"] = "95";
    draft.texts["second_flour.flour"] = "Rye";
    draft.windows[0].low = "14";
    draft.windows[0].high = "12";
    draft.ingredients[1].water = "120";
    draft.ingredients.push_back({"", "3", "", ""});
    type(w, row, draft);
    auto& records = w.screens.plant.records;
    records.gone_through[row.record].all = true;
    records.form.refuse(row.record, {{"Name", "\"Pan bread\" is there already", "Choose another name"},
                                     {"Product", "is not in the book any more", "Look at the list again"}});
}

void changed_elsewhere(WholeWindow& w) {
    auto& row = pan_bread(w);
    auto draft = row.draft;
    draft.texts["mixing_minutes"] = "9,5";
    draft.windows[0].high = "13.4";
    type(w, row, draft);
    row.draft.texts["mixing_minutes"] = "11";
    row.draft.windows[0].low = "12";
    row.changed = "04:12, Tomas";
}

void new_mill(WholeWindow& w) {
    w.screen.click("Add a mill");
    w.screen.type("Fields/Name", "Pennick Stones");
}

void thrown_away(WholeWindow& w) {
    new_mill(w);
    w.screen.click("Empty the form");
}

void retiring_refused(WholeWindow& w) {
    opened(PlantKind::flour, 0)(w);
    auto& standing = w.screens.plant.standing;
    standing.about = w.plant.of(PlantKind::flour)[0].record;
    standing.asked.refusals = {
        {"Flour", "delivery E-3 is still to come", "Take it in or call it off first"},
        {"Flour", "Pan bread is made of it", "Give the product another flour, or retire it first"}};
}

void checks_refused(WholeWindow& w) {
    auto& view = w.screens.plant;
    view.page = PlantView::at_the_door;
    view.choices.typed["door_checks"] = "Seal whole\nSeal whole\n\nDriver signed";
    view.choices.sent = "door_checks";
    view.choices.asked.refusals = {{"Checks at the door", "\"Seal whole\" stands there twice", "Keep one"}};
}

void zone_refused(WholeWindow& w) {
    auto& view = w.screens.plant;
    view.page = PlantView::the_plant;
    view.choices.typed["time_zone"] = "Lisbon";
    view.choices.sent = "time_zone";
    view.choices.asked.refusals = {
        {"Time zone", "\"Lisbon\" is not in the zone tables", "Enter a name such as Europe/Lisbon"}};
}

} // namespace

std::vector<ScreenState> plant_screen_states() {
    return {
        {"plant, empty", Screen::plant, nothing_yet},
        {"plant, filled", Screen::plant, [](WholeWindow&) {}},
        {"plant, a new mill", Screen::plant, new_mill},
        {"plant, thrown away", Screen::plant, thrown_away},
        {"plant, flour", Screen::plant, opened(PlantKind::flour, 0)},
        {"plant, retired flour", Screen::plant, opened(PlantKind::flour, 2)},
        {"plant, retiring refused", Screen::plant, retiring_refused},
        {"plant, place", Screen::plant, opened(PlantKind::place, 0)},
        {"plant, line", Screen::plant, opened(PlantKind::line, 0)},
        {"plant, product", Screen::plant, opened(PlantKind::product, 0)},
        {"plant, product refused", Screen::plant, product_refused},
        {"plant, changed elsewhere", Screen::plant, changed_elsewhere},
        {"plant, at the door", Screen::plant, page(PlantView::at_the_door)},
        {"plant, checks refused", Screen::plant, checks_refused},
        {"plant, laboratory", Screen::plant, page(PlantView::laboratory)},
        {"plant, the plant", Screen::plant, page(PlantView::the_plant)},
        {"plant, zone refused", Screen::plant, zone_refused},
        {"plant, failed", Screen::plant, [](WholeWindow& w) { w.notice = failed(1); }},
    };
}

} // namespace mellowbin::test
