#include "core/ingredient.h"
#include "core/property.h"
#include "core/typed_text.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/plant/fields.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <vector>

/// The lists of a record: a line each, with what is refused of it in a place kept under it.
namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

constexpr ui::Length number_width = 4.5_em, list_width = 38_em;

/// "lowest" -> "Lowest"
std::string label_of(std::string_view member) {
    std::string label(member);
    label.front() = static_cast<char>(label.front() - 'a' + 'A');
    return label;
}

/// The boxes of one line.
class ListRow {
public:
    /// The first row of a list has the labels of its columns.
    ListRow(RecordForm& form, std::string name, bool is_first)
        : form_(form), name_(std::move(name)),
          labels_(is_first ? ui::LabelPlace::above : ui::LabelPlace::hidden) {
        for (const auto& refusal : form.refusals) {
            if (refusal.field == name_)
                of_line_.push_back({name_, refusal.what, refusal.remedy});
            if (!refusal.field.starts_with(name_ + ", "))
                continue;
            const auto member = refusal.field.substr(name_.size() + 2);
            of_line_.push_back({name_, member + ": " + refusal.what, refusal.remedy});
            of_members_.push_back({label_of(member), refusal.what, refusal.remedy});
        }
    }
    [[nodiscard]] const std::string& name() const { return name_; }
    /// With the member that each is about.
    [[nodiscard]] const Refusals& refusals() const { return of_line_; }

    void number(std::string_view member, std::string& text, std::string_view unit,
                std::string_view hint = {}) {
        const auto label = label_of(member);
        follow(member, ui::number_field(field(label, unit, hint, number_width), text));
    }
    void words(std::string_view member, std::string& text, std::string_view hint, ui::Length width) {
        const auto label = label_of(member);
        follow(member, ui::text_field(field(label, {}, hint, width), text));
    }
    void day(std::string_view member, std::string& text) {
        const auto label = label_of(member);
        auto edited = ui::date_field(field(label, {}, "YYYY-MM-DD", 7.5_em), text, form_.today);
        const auto read = read_day(label, text);
        edited.left = edited.left || (edited.changed && read && read->has_value()); // by its buttons, too
        follow(member, edited);
    }
    void name_of(std::string_view member, std::string& text, const std::vector<std::string>& names) {
        const auto label = label_of(member);
        if (name_choice(field(label, {}, {}, 11_em), names, text))
            follow(member, {.changed = true, .left = true});
    }

private:
    [[nodiscard]] ui::Field field(std::string_view label, std::string_view unit, std::string_view hint,
                                  ui::Length width) const {
        return {.label = label,
                .unit = unit,
                .hint = hint,
                .refusals = &of_members_,
                .width = width,
                .label_place = labels_};
    }
    void follow(std::string_view member, const ui::Edited& edited) {
        form_.follow(fmt::format("{}, {}", name_, member), edited);
        if (edited.changed)
            form_.changed.insert(name_);
    }

    RecordForm& form_;
    std::string name_;
    ui::LabelPlace labels_;
    Refusals of_line_, of_members_;
};

/// One list: what it is called, and what is said of it.
struct ListWords {
    std::string_view label, title, what, none, add;
};

/// Others wrote lines while some were typed here.
template <class Row> void tell_of_others(const RecordForm& form, std::vector<Row> PlantDraft::*rows) {
    if (!form.row)
        return;
    const auto& now = form.row->draft.*rows;
    if (form.typed.draft.*rows != now && form.typed.before.*rows != now)
        ui::status(Role::mind, fmt::format("{}the book has other lines now",
                                           form.row->changed.empty() ? "" : form.row->changed + ": "));
}

void tell_refusals(const RecordForm& form, std::string_view label) {
    Refusals of_list;
    for (const auto& refusal : form.refusals)
        if (refusal.field == label || refusal.field == std::string(label) + "s")
            of_list.push_back({"", refusal.what, refusal.remedy});
    ui::all_refusals(of_list);
}

/// `boxes` draws those of a line, `note` says something of it.
template <class Row, class Boxes, class Note>
void draw_list(RecordForm& form, const ListWords& words, std::vector<Row> PlantDraft::*member,
               ui::Length width, Boxes boxes, Note note) {
    auto& rows = form.typed.draft.*member;
    ui::gap(1);
    ui::heading(words.title);
    ui::hint(words.what);
    tell_of_others(form, member);
    tell_refusals(form, words.label);
    std::optional<std::size_t> going;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        ListRow line(form, row_name(words.label, i), i == 0);
        const auto number = fmt::format("{}", i + 1);
        const std::string said = note(rows[i]);
        ui::scope(line.name(), [&] {
            ui::form_row({.label = number,
                          .field = line.name(),
                          .refusals = &line.refusals(),
                          .note = said,
                          .label_width = 1.5_em,
                          .box_width = width},
                         [&] {
                             boxes(line, rows[i]);
                             if (ui::button("Take off", {.kind = ui::ButtonKind::quiet}))
                                 going = i;
                         });
        });
    }
    if (rows.empty())
        ui::hint(words.none);
    if (ui::button(words.add))
        rows.emplace_back();
    if (going)
        rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(*going));
}

// Specifications

const PropertyTraits* property_named(std::string_view name) {
    const auto all = all_properties();
    const auto at = std::find_if(all.begin(), all.end(),
                                 [&](const PropertyTraits& one) { return same_words(one.name, name); });
    return at == all.end() ? nullptr : &*at;
}

const std::vector<std::string>& property_names() {
    static const auto names = [] {
        std::vector<std::string> all;
        for (const auto& one : all_properties())
            all.emplace_back(one.name);
        return all;
    }();
    return names;
}

std::string window_note(const WindowDraft& row) {
    const auto* property = property_named(row.property);
    if (!property)
        return {};
    std::string note = property->has_basis ? "at 14 % moisture" : "";
    if (depends_on_method(property->property))
        note += std::string(note.empty() ? "" : "; ") + "say the method: another one gives other figures";
    return note;
}

void window_list(RecordForm& form, const ListWords& words, std::vector<WindowDraft> PlantDraft::*member) {
    draw_list(
        form, words, member, list_width,
        [](ListRow& line, WindowDraft& row) {
            const auto* property = property_named(row.property);
            const auto unit = property ? property->unit : std::string_view();
            line.name_of("property", row.property, property_names());
            line.number("lowest", row.low, unit, "any");
            line.number("highest", row.high, unit, "any");
            line.words("method", row.method, "any", 5_em);
        },
        window_note);
}

// Climate

void climate_list(RecordForm& form, const ListWords& words) {
    draw_list(
        form, words, &PlantDraft::climate, list_width,
        [](ListRow& line, ClimateStepDraft& row) {
            line.day("from", row.from);
            line.number("temperature", row.temperature, "°C");
        },
        [](const ClimateStepDraft&) { return std::string(); });
}

// Ingredients

std::string ingredient_note(const IngredientDraft& row) {
    const auto* usual = usual_ingredient(trimmed(row.name));
    if (!usual)
        return {};
    return fmt::format("usually {:g} % water ({:g} to {:g}): \"usual\" takes it; your supplier's figure goes "
                       "before it",
                       usual->water_percent, usual->low, usual->high);
}

void ingredient_list(RecordForm& form, const ListWords& words) {
    draw_list(
        form, words, &PlantDraft::ingredients, list_width,
        [](ListRow& line, IngredientDraft& row) {
            line.words("name", row.name, "", 9_em);
            line.number("amount", row.percent, "% of flour");
            line.number("water", row.water, "%", "0");
            line.number("temperature", row.temperature, "°C", "room");
        },
        ingredient_note);
}

} // namespace

void draw_lists(RecordForm& form) {
    const bool is_product = form.typed.draft.kind == PlantKind::product;
    for (const auto& list : plant_lists(form.typed.draft.kind)) {
        if (list.key == "windows")
            window_list(form,
                        {list.label, "Specification",
                         is_product ? "What the blend must keep to." : "What a delivery is judged by.",
                         "No property is specified.", "Add a property"},
                        &PlantDraft::windows);
        else if (list.key == "second_flour.windows")
            window_list(form,
                        {list.label, list.label, "What the lots of the second flour must keep to.",
                         "No property of it is specified.", "Add a property of the second flour"},
                        &PlantDraft::second_windows);
        else if (list.key == "climate")
            climate_list(form, {list.label, "Temperature from a day on",
                                "Holds from its day until the next one's, where no logger says otherwise.",
                                "No day has a temperature of its own.", "Add a day"});
        else
            ingredient_list(form,
                            {list.label, "Ingredients",
                             "Kilograms for 100 kg of flour. The water in them counts as the dough's. Wheat "
                             "is an allergen, and so are milk, egg, soya, sesame and nuts: have qualified "
                             "staff confirm what the bread declares.",
                             "No ingredient beside flour and water.", "Add an ingredient"});
    }
}

} // namespace mellowbin::views
