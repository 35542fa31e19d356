#pragma once

#include "app/models/plant.h"
#include "core/plant_draft.h"
#include "core/plant_field.h"
#include "core/result.h"
#include "ui/views/common/form.h"

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>

namespace mellowbin::views {

/// A record of the plant as it is typed, until it is kept.
struct PlantTyped {
    PlantDraft draft;
    PlantDraft before; ///< as the form began, or as the book had it when it said that others changed it
    friend bool operator==(const PlantTyped&, const PlantTyped&) = default;
};

/// Fields that a person went through: what is wrong there is said.
struct GoneThrough {
    std::set<std::string, std::less<>> fields;
    bool all = false; ///< of the whole form
};

/// What was thrown away last can be brought back.
struct ThrownAway {
    PlantRef record;
    PlantTyped typed;
};

/// The forms of the plant's records. Of a record number 0 a new one is typed.
struct PlantForms {
    Form<PlantRef, PlantTyped> form; ///< its drafts: of those alone of which something is typed
    std::map<PlantRef, GoneThrough> gone_through;
    std::optional<ThrownAway> thrown_away;

    /// As it is typed, else as it stands, else a new one.
    [[nodiscard]] PlantTyped shown(PlantRef record, const app::PlantModel& model) const;
    /// Something differs from what the form began with.
    [[nodiscard]] bool is_changed(PlantRef record) const;
    /// Takes the draft as it is typed now; nothing is kept of one that says what it began with.
    void type(PlantRef record, PlantTyped typed);
    /// Of a field that was changed the book's answer says nothing any more.
    void forget_answer(PlantRef record, std::string_view field);
    void throw_away(PlantRef record);
    void bring_back();
    /// It is in the book, or shall not be.
    void forget(PlantRef record);

    /// What nobody typed over follows the book; what was typed of a record that is gone is a new one.
    void follow(const app::PlantModel& model);
    /// The book refused it: all is said, at the rows as they stand on the form, and what others wrote
    /// meanwhile is what the form began with.
    void take_refusals(PlantRef record, const app::PlantModel& model);
    /// Of all that stands against it, what is to be said.
    [[nodiscard]] Refusals said(PlantRef record, const PlantDraft& draft, const app::PlantModel& model) const;
};

/// Without the rows of its lists in which nothing is typed.
PlantDraft without_blank_rows(PlantDraft draft);

/// "Specification 2", "Ingredient 1": a row of a list as the form calls it, counted from 1.
std::string row_name(std::string_view list, std::size_t at);

} // namespace mellowbin::views
