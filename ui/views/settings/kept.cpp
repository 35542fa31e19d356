#include "ui/views/settings/kept.h"

#include "core/typed_text.h"
#include "ui/views/common/keep_drafts.h"
#include "ui/views/common/keep_take_back.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {

void keep(auto& k, Kind<LimitDraft> auto& draft) {
    auto& [figure, status, source, source_date] = draft;
    k("figure", figure);
    k("status", status);
    k("source", source);
    k("source_date", source_date);
}

void keep(auto& k, Kind<TypedChoice> auto& choice) {
    auto& [text, over] = choice;
    k("text", text);
    k("over", over);
}

void keep(auto& k, Kind<TypedIngredients> auto& typed) {
    auto& [rows, over] = typed;
    k("rows", rows);
    k("over", over);
}

void keep(auto& k, Kind<StoragePage> auto& page) {
    auto& [path, place, asked, asked_path, asked_place, accept_reason, set_aside, taking_back] = page;
    k("path", path);
    k("place", place);
    k("accept_reason", accept_reason);
}

void keep(auto& k, Kind<TestPrecisionDraft> auto& draft) {
    auto& [property, method, r, reproducibility, given, low, high, mill_replicates, own_replicates, source] =
        draft;
    k("property", property);
    k("method", method);
    k("r", r);
    k("R", reproducibility);
    k("given", given);
    k("low", low);
    k("high", high);
    k("mill_replicates", mill_replicates);
    k("own_replicates", own_replicates);
    k("source", source);
}

namespace {

std::string words_of_precision(std::int64_t record, const app::SettingsModel& model) {
    for (std::size_t i = 0; i < model.precision.size(); ++i)
        if (record_of(model, i) == record)
            return "a row on the test precision of " + lower_case(model.precision[i].property);
    return "a row on test precision";
}

std::string words_of_limit(std::int64_t record, const app::SettingsModel& model) {
    const auto at = std::find_if(model.limits.begin(), model.limits.end(),
                                 [&](const app::LimitLine& line) { return record_of(line.id) == record; });
    return at == model.limits.end()
               ? "a correction of a limit"
               : fmt::format("a correction of the limit on {} in {}", at->substance, at->market);
}

std::string words_of_choice(const std::string& key, const app::SettingsModel& model) {
    const auto at = std::find_if(model.settings.begin(), model.settings.end(),
                                 [&](const app::SettingRow& row) { return row.key == key; });
    return "the choice " + (at == model.settings.end() ? key : at->label);
}

std::string words_of_dough(ProductId product, const app::SettingsModel& model) {
    const auto& doughs = model.doughs.doughs;
    const auto at = std::find_if(doughs.begin(), doughs.end(),
                                 [&](const app::DoughRow& row) { return row.id == product; });
    return "ingredients of " + (at == doughs.end() ? "a product" : at->product);
}

bool is_begun(const StoragePage& page) { return !(page.path + page.accept_reason).empty(); }

} // namespace

void keep_begun(KeptWriter& k, const SettingsView& view, const app::SettingsModel& model) {
    keep_all(k, "choices", view.typed, [&](const std::string& key) { return words_of_choice(key, model); });
    keep_form(k, "limits", view.limit_form,
              [&](std::int64_t record) { return words_of_limit(record, model); });
    keep_form(k, "precision", view.precision.form,
              [&](std::int64_t record) { return words_of_precision(record, model); });
    keep_all(k, "doughs", view.doughs.drafts,
             [&](ProductId product) { return words_of_dough(product, model); });
    if (is_begun(view.storage)) {
        k.begun("a logger's file to read");
        k("storage", view.storage);
    }
    keep_question(k, "taking_back", view.storage.taking_back);
    k("page", view.page);
    k("limit", view.limits.selected);
    const auto& doughs = model.doughs.doughs;
    if (view.doughs.product >= 0 && static_cast<std::size_t>(view.doughs.product) < doughs.size())
        k("dough", doughs[static_cast<std::size_t>(view.doughs.product)].id);
}

void take_up(KeptReader& k, SettingsView& view, const app::SettingsModel& model) {
    take_up_all(k, "choices", view.typed);
    take_up_form(k, "limits", view.limit_form);
    take_up_form(k, "precision", view.precision.form);
    take_up_all(k, "doughs", view.doughs.drafts);
    if (!is_begun(view.storage) && k.has("storage"))
        k("storage", view.storage);
    take_up_question(k, "taking_back", view.storage.taking_back);
    k("page", view.page);
    view.page = std::clamp(view.page, 0, SettingsView::last_page);
    k("limit", view.limits.selected);
    view.limits.show_selected = true;
    ProductId dough;
    k("dough", dough);
    const auto& doughs = model.doughs.doughs;
    for (std::size_t i = 0; i < doughs.size(); ++i)
        if (doughs[i].id == dough)
            view.doughs.product = static_cast<int>(i);
}

} // namespace mellowbin::views
