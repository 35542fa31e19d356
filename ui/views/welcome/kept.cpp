#include "ui/views/welcome/kept.h"

#include "ui/views/common/keep_drafts.h"

#include <fmt/format.h>

namespace mellowbin::views {

void keep(auto& k, Kind<SetUpForm> auto& form) {
    auto& [record, draft, before] = form;
    k("record", record);
    k("draft", draft);
    k("before", before);
}

void keep(auto& k, Kind<PlantNameForm> auto& form) {
    auto& [name, zone, name_before, zone_before] = form;
    k("name", name);
    k("zone", zone);
    k("name_before", name_before);
    k("zone_before", zone_before);
}

void keep(auto& k, Kind<FirstLotForm> auto& form) {
    auto& [draft, basis, is_begun] = form;
    k("draft", draft);
    k("basis", basis);
    k("is_begun", is_begun);
}

void keep(auto& k, Kind<FirstRunForm> auto& form) {
    auto& [product, line, day, batches, wants_flour] = form;
    k("product", product);
    k("line", line);
    k("day", day);
    k("batches", batches);
}

namespace {

void begun(KeptWriter& k, std::string_view what) {
    k.begun(fmt::format("{}, while the plant is set up", what));
}

} // namespace

void keep_begun(KeptWriter& k, const AssistantView& view) {
    if (view.plant.is_touched()) {
        begun(k, "the plant's name");
        k("plant", view.plant);
    }
    for (const auto& form : view.records)
        if (form.is_touched()) {
            begun(k, fmt::format("a {}", plant_kind_words[static_cast<std::size_t>(form.draft.kind)]));
            k(plant_kind_words[static_cast<std::size_t>(form.draft.kind)], form);
        }
    if (view.lot.is_touched()) {
        begun(k, "a first lot");
        k("lot", view.lot);
    }
    if (!view.run.batches.empty()) {
        begun(k, "a first run");
        k("run", view.run);
    }
    if (!view.reason.empty()) {
        begun(k, "a reason for a release");
        k("reason", view.reason);
    }
    k("is_looked_at", view.is_looked_at);
    if (view.is_looked_at)
        k("step", static_cast<int>(view.step));
}

void take_up(KeptReader& k, AssistantView& view) {
    view.open();
    if (!view.plant.is_touched() && k.has("plant"))
        k("plant", view.plant);
    for (std::size_t i = 0; i < view.records.size(); ++i)
        if (!view.records[i].is_touched() && k.has(plant_kind_words[i]))
            k(plant_kind_words[i], view.records[i]);
    if (!view.lot.is_touched() && k.has("lot"))
        k("lot", view.lot);
    if (view.run.batches.empty() && k.has("run"))
        k("run", view.run);
    if (view.reason.empty())
        k("reason", view.reason);
    k("is_looked_at", view.is_looked_at);
    if (view.is_looked_at) {
        int step = 0;
        k("step", step);
        if (step >= 0 && step < static_cast<int>(app::set_up_steps))
            view.step = static_cast<app::SetUpStep>(step);
    }
}

} // namespace mellowbin::views
