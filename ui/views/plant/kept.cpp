#include "ui/views/plant/kept.h"

#include "core/typed_text.h"
#include "ui/views/common/keep_drafts.h"
#include "ui/views/common/keep_take_back.h"
#include "ui/views/plant/parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace mellowbin::views {

void keep(auto& k, Kind<PlantTyped> auto& typed) {
    auto& [draft, before] = typed;
    k("draft", draft);
    k("before", before);
}

void keep(auto& k, Kind<ComplaintDraft> auto& draft) {
    auto& [lot, property, subject, words, kg, noticed_on] = draft;
    k("lot", lot);
    k("property", property);
    k("subject", subject);
    k("words", words);
    k("kg", kg);
    k("noticed_on", noticed_on);
}

void keep(auto& k, Kind<ComplaintAnswerDraft> auto& draft) {
    auto& [words, answered_on] = draft;
    k("words", words);
    k("answered_on", answered_on);
}

void keep(auto& k, Kind<MillWordDraft> auto& draft) {
    auto& [means, unit, basis, method, nitrogen_factor] = draft;
    k("means", means);
    k("unit", unit);
    k("basis", basis);
    k("method", method);
    k("nitrogen_factor", nitrogen_factor);
}

namespace {

std::string words_of(PlantRef record, const app::PlantModel& model) {
    auto kind = lower_case(name_of(record.kind));
    if (record.number == 0)
        return fmt::format("a new {}", kind);
    const auto* row = model.find(record);
    return fmt::format("a change of {} {}", kind, row ? row->name : "that is gone");
}

std::string words_of_choice(const std::string& key, const app::SettingsModel& settings) {
    const auto* row = choice_named(settings, key);
    return "the choice " + (row ? row->label : key);
}

std::string key_of(PlantRef record) {
    return fmt::format("{}-{}", plant_kind_words[static_cast<std::size_t>(record.kind)], record.number);
}

std::optional<PlantRef> ref_in(std::string_view key) {
    const auto dash = key.find('-');
    const auto at = std::find(plant_kind_words.begin(), plant_kind_words.end(), key.substr(0, dash));
    const auto number = dash == std::string_view::npos ? std::nullopt : kept::number_in(key.substr(dash + 1));
    if (at == plant_kind_words.end() || !number)
        return {};
    return PlantRef{static_cast<PlantKind>(at - plant_kind_words.begin()), *number};
}

std::string name_of_mill(MillId mill, const app::PlantModel& model) {
    const auto* row = model.find({PlantKind::mill, mill.number()});
    return row ? row->name : "a mill that is gone";
}

/// The mill whose record was looked at is looked at again.
void keep_complaints(KeptWriter& k, const PlantView& view, const app::PlantModel& model) {
    const auto& forms = view.mill_record.complaints;
    keep_form(k, "complaints", forms.complaint,
              [&](MillId mill) { return "a complaint to " + name_of_mill(mill, model); });
    keep_form(k, "answers", forms.answer,
              [&](ComplaintId) { return std::string("how a mill answered a complaint"); });
    keep_question(k, "taking_back", forms.taking_back);
    k("complaint_is_open", forms.is_open);
    if (shows_mill_record(view))
        k("mill_record", view.records.form.open->number);
}

void take_up_complaints(KeptReader& k, PlantView& view) {
    auto& forms = view.mill_record.complaints;
    const auto complaints = take_up_form(k, "complaints", forms.complaint);
    const auto answers = take_up_form(k, "answers", forms.answer);
    take_up_question(k, "taking_back", forms.taking_back);
    if (bool was_open = false; k("complaint_is_open", was_open), was_open && !complaints.empty())
        forms.is_open = true;
    std::int64_t mill = 0;
    k("mill_record", mill);
    if (mill != 0)
        view.show_record(MillId{mill});
    else if (!complaints.empty())
        view.show_record(complaints.front());
}

} // namespace

void keep_begun(KeptWriter& k, const PlantView& view, const app::PlantModel& model,
                const app::SettingsModel& settings) {
    k.within("records", [&] {
        for (const auto& [record, typed] : view.records.form.drafts) {
            k.begun(words_of(record, model));
            k(key_of(record), typed);
        }
    });
    keep_all(k, "choices", view.choices.typed,
             [&](const std::string& key) { return words_of_choice(key, settings); });
    keep_complaints(k, view, model);
    keep_form(k, "mill_words", view.mill_words.form,
              [](const std::string&) { return "a change of what a mill's word means"; });
    k("page", view.page);
}

void take_up(KeptReader& k, PlantView& view) {
    k("page", view.page);
    view.page = std::clamp(view.page, 0, static_cast<int>(PlantView::the_plant));
    std::optional<PlantRef> first; // of the page that was shown, where there is one
    const auto names = k.names_in("records");
    k.within("records", [&] {
        for (const auto& name : names) {
            const auto record = ref_in(name);
            if (!record || view.records.form.drafts.contains(*record)) // what was typed since stays
                continue;
            k(name, view.records.form.drafts[*record]);
            if (!first || static_cast<int>(record->kind) == view.page)
                first = *record;
        }
    });
    take_up_all(k, "choices", view.choices.typed);
    take_up_form(k, "mill_words", view.mill_words.form);
    if (first && view.page <= PlantView::products)
        view.show(*first);
    take_up_complaints(k, view);
}

} // namespace mellowbin::views
