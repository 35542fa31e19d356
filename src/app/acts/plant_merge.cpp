#include "app/acts/plant_merge.h"

#include <fmt/format.h>

#include <string_view>
#include <utility>

namespace mellowbin::app {
namespace {

/// A field as a person reads it.
std::string shown(const std::string& text) { return text.empty() ? "nothing" : text; }

/// Two people changed one record: what only one of them changed is theirs, what both changed is asked.
class Merge {
public:
    Merge(PlantDraft typed, const PlantDraft& before, const PlantDraft& now, const std::string& who)
        : merged_(std::move(typed)), before_(before), now_(now), who_(who) {}

    Result<PlantDraft> both() {
        for (const auto& field : plant_fields(merged_.kind))
            take(field.label, merged_.texts[std::string(field.key)], before_.text(field.key),
                 now_.text(field.key));
        take("Specification", merged_.windows, before_.windows, now_.windows);
        take("Second flour's specification", merged_.second_windows, before_.second_windows,
             now_.second_windows);
        take("Climate", merged_.climate, before_.climate, now_.climate);
        take("Ingredients", merged_.ingredients, before_.ingredients, now_.ingredients);
        if (!refusals_.empty())
            return refusals_;
        return merged_;
    }

private:
    static std::string said(const std::string& text) { return shown(text); }
    template <class Row> static std::string said(const std::vector<Row>&) { return "another list"; }

    template <class Part>
    void take(std::string_view label, Part& typed, const Part& before, const Part& now) {
        if (typed == before)
            typed = now;
        else if (now != before && now != typed)
            refusals_.push_back({std::string(label),
                                 fmt::format("was changed meanwhile by {}: it is {} now, was {}", who_,
                                             said(now), said(before)),
                                 "Look at it, and keep again what shall hold"});
    }

    PlantDraft merged_;
    const PlantDraft &before_, &now_;
    const std::string& who_;
    Refusals refusals_;
};

} // namespace

std::string changes_in_words(const PlantDraft& before, const PlantDraft& after) {
    std::string words;
    const auto add = [&](const std::string& change) { words += (words.empty() ? "" : "; ") + change; };
    for (const auto& field : plant_fields(after.kind))
        if (const auto& was = before.text(field.key), &is = after.text(field.key); was != is)
            add(fmt::format("{} {} -> {}", field.label, shown(was), shown(is)));
    if (before.windows != after.windows)
        add("Specification changed");
    if (before.second_windows != after.second_windows)
        add("Second flour's specification changed");
    if (before.climate != after.climate)
        add("Climate changed");
    if (before.ingredients != after.ingredients)
        add("Ingredients changed");
    return words;
}

Result<PlantDraft> merged_with(const PlantDraft& now, const PlantDraft& before, PlantDraft typed,
                               const std::string& who) {
    return Merge(std::move(typed), before, now, who).both();
}

} // namespace mellowbin::app
