#include "ui/views/readiness/story_charts.h"

#include "app/models/readiness.h"
#include "app/models/story.h"
#include "ui/views/common/estimate_parts.h"
#include "ui/views/common/words.h"
#include "ui/views/readiness/storage_table.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using Curve = ui::Curve;

/// What all the curves of a story share, and the day that the pointer is on in one of them.
class SharedAxis {
public:
    SharedAxis(const app::AgingStory& story, const app::ReadinessModel& model,
               std::optional<double> looked_at)
        : first_(ui::day_number(story.first)), last_(ui::day_number(story.last)),
          today_(ui::day_number(model.as_of)), is_another_day_(model.as_of != model.today),
          looked_at_(looked_at) {}

    void draw(Curve curve) {
        curve.first_day = first_;
        curve.last_day = last_;
        curve.today = today_;
        curve.today_words = is_another_day_ ? "as of" : "today";
        curve.looked_at = looked_at_;
        if (const auto events = ui::curve(curve); events.day_under_pointer)
            under_pointer_ = events.day_under_pointer;
    }
    [[nodiscard]] std::optional<double> under_pointer() const { return under_pointer_; }

private:
    double first_, last_, today_;
    bool is_another_day_;
    std::optional<double> looked_at_, under_pointer_;
};

void maturity(StoryCharts& view, const app::AgingStory& story, SharedAxis& axis) {
    ui::panel("Maturity, an estimate", [&] {
        if (!story.maturity_words.empty())
            ui::status(ui::Role::model, "mature " + story.maturity_words);
        const auto percent = in_percent(story.curve);
        if (view.maturity_as_table) {
            course_table("Maturity by day, %", percent, 0);
        } else {
            const auto points = points_of(percent);
            const auto name = fmt::format("Maturity of {}", story.code);
            axis.draw({.name = name,
                       .y_axis = "maturity",
                       .unit = "%",
                       .decimals = 0,
                       .y_from = 0,
                       .y_to = 100,
                       .points = points,
                       .height = 12_em});
            ui::curve_legend(points, {}, "10 to 90 %");
        }
        table_switch(view.maturity_as_table);
    });
}

const app::PropertyCourse& chosen_course(StoryCharts& view, const app::AgingStory& story) {
    const auto at = std::find_if(story.courses.begin(), story.courses.end(),
                                 [&](const auto& course) { return course.property == view.property; });
    return at == story.courses.end() ? story.courses.front() : *at;
}

void choose_property(StoryCharts& view, const app::AgingStory& story) {
    if (story.courses.size() < 2)
        return;
    std::vector<std::string_view> names;
    for (const auto& course : story.courses)
        names.push_back(traits(course.property).name);
    int chosen = static_cast<int>(&chosen_course(view, story) - story.courses.data());
    if (ui::choice({.label = "Property"}, names, chosen))
        view.property = story.courses[static_cast<std::size_t>(chosen)].property;
}

void marks_table(const app::PropertyCourse& course) {
    const auto& kind = traits(course.property);
    for (const auto& mark : course.marks) {
        ui::fact({.label = iso(mark.day),
                  .value = number_words(mark.value, kind.decimals),
                  .unit = kind.unit,
                  .note = mark.asks_check ? std::string_view("asks for a check") : std::string_view(),
                  .role = mark.asks_check ? ui::Role::mind : ui::Role::ink});
    }
    if (!course.band.empty())
        course_table(fmt::format("{} by day", kind.name), course.band, kind.decimals);
}

void course_curve(const app::PropertyCourse& course, SharedAxis& axis) {
    const auto& kind = traits(course.property);
    const auto points = points_of(course.band);
    std::vector<ui::CurveMark> marks;
    for (const auto& mark : course.marks)
        marks.push_back({ui::day_number(mark.day), mark.value, mark.words,
                         mark.asks_check ? ui::MarkShape::asks_check : ui::MarkShape::plain});
    axis.draw({.name = kind.name,
               .y_axis = kind.name,
               .unit = kind.unit,
               .decimals = kind.decimals,
               .points = points,
               .marks = marks,
               .height = 11_em});
    ui::curve_legend(points, marks, "10 to 90 %");
    if (points.empty())
        ui::hint("The estimate gives this property a course once two results of it can be compared.");
}

void results(StoryCharts& view, const app::AgingStory& story, SharedAxis& axis) {
    ui::panel("What was measured", [&] {
        if (story.courses.empty()) {
            ui::hint("No property was measured yet: the curve above rests on figures for flour of its kind.");
            return;
        }
        choose_property(view, story);
        const auto& course = chosen_course(view, story);
        if (view.results_as_table)
            marks_table(course);
        else
            course_curve(course, axis);
        table_switch(view.results_as_table);
    });
}

/// A day counts as measured when a logger saw at least half of it; the table gives the share itself.
ui::Known known(const app::StorageDay& day) {
    return day.measured >= 0.5 ? ui::Known::measured : ui::Known::assumed;
}

using ValueOfDay = std::optional<double> app::StorageDay::*;

/// Days without a value leave a space in the line.
std::vector<ui::CurvePoint> values_of(const app::AgingStory& story, ValueOfDay value,
                                      const std::function<ui::Known(const app::StorageDay&)>& how) {
    std::vector<ui::CurvePoint> points;
    bool is_apart = false;
    for (const auto& day : story.storage) {
        if (const auto& v = day.*value)
            points.push_back({ui::day_number(day.day), *v, *v, *v, how(day), std::exchange(is_apart, false)});
        else
            is_apart = true;
    }
    return points;
}

void storage_curves(const app::AgingStory& story, SharedAxis& axis) {
    std::vector<ui::CurvePoint> temperature;
    for (const auto& day : story.storage)
        temperature.push_back({ui::day_number(day.day), day.low, day.mean, day.high, known(day)});
    const auto humidity = values_of(story, &app::StorageDay::humidity, known);
    const auto moisture =
        values_of(story, &app::StorageDay::flour_moisture, [](const auto&) { return ui::Known::estimate; });
    axis.draw({.name = "Temperature",
               .y_axis = "temperature, low to high of the day",
               .unit = "°C",
               .decimals = 1,
               .points = temperature,
               .height = 9_em});
    axis.draw({.name = "Humidity of the air",
               .y_axis = "humidity of the air",
               .unit = "%",
               .decimals = 0,
               .points = humidity,
               .when_empty = "not known",
               .height = 7.5_em});
    axis.draw({.name = "Moisture of the flour",
               .y_axis = "moisture of the flour",
               .unit = "%",
               .decimals = 1,
               .points = moisture,
               .when_empty = "not known: it follows from the humidity",
               .height = 7.5_em});
    ui::curve_legend(temperature, {}, "");
    if (!moisture.empty())
        ui::hint("The flour's moisture is an estimate: it drifts towards what the air would give it.");
}

void storage(StoryCharts& view, const app::AgingStory& story, SharedAxis& axis) {
    ui::panel("Storage climate", [&] {
        if (!story.storage_words.empty())
            ui::paragraph(story.storage_words);
        if (story.storage.empty()) {
            ui::hint("Nothing is known of where it lay.");
            return;
        }
        if (view.storage_as_table)
            storage_table(story.storage);
        else
            storage_curves(story, axis);
        table_switch(view.storage_as_table);
    });
}

} // namespace

void draw_charts(StoryCharts& view, const app::AgingStory& story, const app::ReadinessModel& model) {
    SharedAxis axis(story, model, view.looked_at);
    maturity(view, story, axis);
    results(view, story, axis);
    storage(view, story, axis);
    view.looked_at = axis.under_pointer();
}

} // namespace mellowbin::views
