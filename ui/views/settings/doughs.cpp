#include "ui/views/settings/doughs.h"

#include "app/acts/ingredients.h"
#include "app/acts/intent.h"
#include "app/acts/notice.h"
#include "core/typed_text.h"
#include "ui/views/common/changed.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

/// What stands in the form: what was typed, else what the book has.
std::vector<IngredientDraft> rows_of(const DoughsPage& page, const app::DoughRow& dough) {
    const auto typed = page.drafts.find(dough.id);
    return typed == page.drafts.end() ? dough.ingredients : typed->second.rows;
}

/// Only what differs from the book: what another station changes is seen.
void keep_draft(DoughsPage& page, const app::DoughRow& dough, std::vector<IngredientDraft> rows) {
    if (rows == dough.ingredients)
        page.drafts.erase(dough.id);
    else
        page.drafts.try_emplace(dough.id, TypedIngredients{{}, dough.ingredients}).first->second.rows =
            std::move(rows);
}

/// True where the row is to go.
bool ingredient_fields(IngredientDraft& row, const app::DoughsModel& model) {
    bool goes = false;
    ui::flow([&] {
        ui::text_field({.label = "Ingredient", .width = 14_em}, row.name);
        ui::number_field({.label = "Amount", .unit = "% of flour", .width = 5_em}, row.percent);
        ui::number_field({.label = "Water in it", .unit = "%", .hint = "0", .width = 5_em}, row.water);
        ui::number_field(
            {.label = "Goes in at", .unit = model.temperature_unit, .hint = "room", .width = 5_em},
            row.temperature);
        goes = ui::button("Take off", {.kind = ui::ButtonKind::quiet});
    });
    return goes;
}

void ingredient_rows(std::vector<IngredientDraft>& rows, const app::DoughsModel& model) {
    std::optional<std::size_t> going;
    for (std::size_t i = 0; i < rows.size(); ++i)
        ui::scope(static_cast<std::int64_t>(i) + 1, [&] {
            if (ingredient_fields(rows[i], model))
                going = i;
        });
    if (rows.empty())
        ui::hint("No ingredient beside flour and water.");
    if (going)
        rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(*going));
}

/// Into the row of that name, else into one of its own.
void take_usual(const app::UsualRow& usual, std::vector<IngredientDraft>& rows) {
    const auto same = std::find_if(rows.begin(), rows.end(), [&](const IngredientDraft& row) {
        return same_words(row.name, usual.name);
    });
    if (same != rows.end())
        same->water = usual.water;
    else
        rows.push_back({usual.name, "", usual.water, ""});
}

void ready_figures(DoughsPage& page, const app::DoughsModel& model, std::vector<IngredientDraft>& rows) {
    std::vector<std::string_view> names;
    for (const auto& usual : model.usual)
        names.push_back(usual.name);
    const bool is_chosen = page.usual >= 0 && page.usual < static_cast<int>(model.usual.size());
    ui::flow([&] {
        if (ui::button("Add an ingredient"))
            rows.emplace_back();
        ui::choice({.label = "Ready figure", .width = 14_em}, names, page.usual);
        if (is_chosen && ui::button("Take the figure"))
            take_usual(model.usual[static_cast<std::size_t>(page.usual)], rows);
    });
    if (!is_chosen)
        return;
    const auto& usual = model.usual[static_cast<std::size_t>(page.usual)];
    ui::hint(fmt::format("{}: {}. {}. Your supplier's figure goes before it.", usual.name, usual.words,
                         usual.source));
}

void keep_buttons(DoughsPage& page, const app::DoughRow& dough, const app::Notice& notice,
                  app::Intents& out) {
    const bool is_new = page.drafts.contains(dough.id);
    ui::flow([&] {
        if (ui::button("Keep these ingredients", {.kind = ui::ButtonKind::primary,
                                                  .blocked = page.sent == dough.id ? "is being kept"
                                                             : is_new              ? ""
                                                                      : "nothing was changed"})) {
            page.sent = dough.id;
            page.asked.ask(notice);
            out.emplace_back(app::ChangeIngredients{dough.product, page.drafts[dough.id].rows});
        }
        if (is_new && ui::button("As before", {.kind = ui::ButtonKind::quiet})) {
            page.drafts.erase(dough.id);
            page.refused.reset();
        }
    });
}

/// "the book has Salt 2 %, Yeast 1.5 %"
std::string words_for(const app::DoughRow& dough) {
    std::string words;
    for (const auto& row : dough.ingredients)
        words += fmt::format("{}{} {} %", words.empty() ? "" : ", ", row.name, row.percent);
    return "the book has " + (words.empty() ? "none" : words);
}

void dough_panel(DoughsPage& page, const app::DoughsModel& model, const app::DoughRow& dough,
                 const app::Notice& notice, app::Intents& out) {
    ui::panel(dough.product, [&] {
        ui::hint("Amounts are kg for 100 kg of flour. The water in an ingredient counts as the dough's: so "
                 "much less is poured.");
        if (const auto typed = page.drafts.find(dough.id);
            typed != page.drafts.end() && typed->second.over != dough.ingredients)
            stands_otherwise(words_for(dough), dough.changed);
        ui::form("Ingredients", [&] {
            auto rows = rows_of(page, dough);
            ingredient_rows(rows, model);
            ready_figures(page, model, rows);
            keep_draft(page, dough, std::move(rows));
            if (page.refused == dough.id)
                ui::all_refusals(page.asked.refusals);
            keep_buttons(page, dough, notice, out);
        });
        if (!dough.water_words.empty())
            ui::paragraph(dough.water_words);
    });
}

/// Kept, the draft goes; refused, all stays as typed.
void take_answer(DoughsPage& page, const app::Notice& notice) {
    const auto answer = page.asked.take_answer(notice);
    if (!answer || !page.sent)
        return;
    const auto product = *std::exchange(page.sent, std::nullopt);
    page.refused.reset();
    if (*answer == app::Notice::Kind::done)
        page.drafts.erase(product);
    else
        page.refused = product;
}

} // namespace

void draw(DoughsPage& page, const app::DoughsModel& model, const app::Notice& notice, app::Intents& out) {
    take_answer(page, notice);
    if (model.doughs.empty()) {
        ui::hint("The plant has no products yet.");
        return;
    }
    std::vector<std::string_view> names;
    for (const auto& dough : model.doughs)
        names.push_back(dough.product);
    page.product = std::clamp(page.product, 0, static_cast<int>(names.size()) - 1);
    ui::scroll_area("Doughs", {}, [&] {
        ui::choice({.label = "Product", .width = 20_em}, names, page.product);
        const auto& dough = model.doughs[static_cast<std::size_t>(page.product)];
        ui::scope(dough.id.number(), [&] { dough_panel(page, model, dough, notice, out); });
    });
}

} // namespace mellowbin::views
