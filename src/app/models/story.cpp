#include "app/models/story.h"

#include "aging/fat_acidity.h"
#include "app/book/estimates.h"
#include "app/book/station.h"
#include "app/models/aging_words.h"
#include "app/models/maturity_words.h"
#include "core/decimal.h"
#include "core/normal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::app {
namespace {

/// Everything that the parts of a story are told from.
struct Telling {
    const Station& s;
    const Lot& lot;
    Day day; ///< the one asked about
    const aging::Estimate& estimate;
    LotEvidence made;

    [[nodiscard]] const aging::StoragePath& path() const { return estimate.flour().path; }
};

void tell_days(const Telling& t, AgingStory& story) {
    story.maturity_words = maturity_words(t.estimate, t.day);
    story.first = t.lot.milled_on.value_or(t.lot.delivered_on);
    Day last = std::max(t.s.today(), t.day);
    for (const auto& run : story.runs)
        last = std::max(last, run.day);
    const int days = std::clamp(static_cast<int>((last - story.first).count()) + 45, 60, 240);
    story.last = story.first + Days{days - 1};
    for (const auto& day : aging::curve(t.estimate, story.first, days))
        story.curve.push_back({day.day, day.low.value(), day.likely.value(), day.high.value()});
}

std::vector<double> moments_of(const AgingStory& story) {
    std::vector<double> moments;
    for (Day day = story.first; day <= story.last; day += Days{1})
        moments.push_back(aging::days_of(day));
    return moments;
}

PropertyCourse course_of(const Telling& t, const aging::Series& series, const AgingStory& story) {
    const auto& kind = traits(series.property);
    const bool is_share = aging::maturing_test(series.property)->change == aging::ChangeKind::share;
    PropertyCourse course{series.property, {}, {}};
    for (const auto& observation : series.observations) {
        const Day day{Days{static_cast<int>(std::floor(observation.at))}};
        course.marks.push_back(
            {day, observation.value,
             fmt::format("{}{}: {} {}", short_day(day), observation.is_fresh ? ", certificate" : "",
                         fixed(observation.value, kind.decimals), kind.unit),
             false});
    }
    for (const auto& row : story.tests)
        if (row.asks_check && row.property == series.property)
            for (auto& mark : course.marks)
                mark.asks_check = mark.asks_check || mark.day == row.taken_on;
    if (series.observations.size() < 2)
        return course;
    const auto moments = moments_of(story);
    const auto belief = t.estimate.property(series, moments);
    for (std::size_t i = 0; i < moments.size(); ++i) {
        const auto& level = belief.levels[i];
        const auto value = [&](double z) {
            const double at = level.mean + z * level.sd;
            return is_share ? std::exp(at) : at;
        };
        course.band.push_back(
            {story.first + Days{static_cast<int>(i)}, value(-to_10_and_90), value(0), value(to_10_and_90)});
    }
    return course;
}

const aging::Stay* main_stay(const aging::StoragePath& path, double at) {
    const aging::Stay* most = nullptr;
    for (const auto& stay : path)
        if (stay.from <= at && at < stay.until && (!most || stay.share > most->share))
            most = &stay;
    return most;
}

void tell_storage(const Telling& t, AgingStory& story) {
    constexpr double noon = 0.5;
    for (Day day = std::max(story.first, t.lot.delivered_on); day <= story.last; day += Days{1}) {
        const double from = aging::days_of(day);
        const auto* stay = main_stay(t.path(), from + noon);
        if (!stay)
            continue;
        const auto seen = stay->climate->temperature(from, from + 1);
        StorageDay row{day, seen.low.value(), seen.mean.value(), seen.high.value(), {}, {}, 0};
        if (const auto humidity = stay->climate->humidity_at(from + noon))
            row.humidity = 100 * humidity->value();
        if (t.made.moisture)
            if (const auto moisture = aging::moisture_on(t.path(), *t.made.moisture, from))
                row.flour_moisture = moisture->value();
        row.measured = stay->climate->measured_days(from, from + 1);
        story.storage.push_back(row);
    }
    const double share = t.estimate.measured_share(t.s.today());
    int gaps = 0;
    for (const auto& stay : t.path())
        for (const auto& gap : stay.climate->gaps())
            gaps +=
                gap.until > stay.from && gap.from < std::min(stay.until, aging::days_of(t.s.today())) ? 1 : 0;
    story.storage_words =
        share <= 0 ? "No logger measured its storage: what is assumed of the places counts"
                   : fmt::format("Loggers measured {:.0f} % of its time since the milling{}", 100 * share,
                                 gaps == 0 ? ""
                                           : fmt::format("; {} {} bridged by what is assumed of the place",
                                                         gaps, gaps == 1 ? "gap is" : "gaps are"));
    if (t.made.by_place.size() > 1)
        story.storage_words +=
            fmt::format("; it lies in {} places, each followed by itself", t.made.by_place.size());
}

/// What a retest measured beside the maturing: moisture, fat acidity.
void tell_other_results(const Telling& t, const Retest& retest, AgingStory& story) {
    for (const auto& value : retest.results.values()) {
        if (aging::maturing_test(value.property))
            continue;
        TestRow row;
        row.retest = retest.id;
        row.property = value.property;
        row.taken_on = retest.taken_on;
        row.value = value.value;
        row.basis = in_words(value.basis);
        row.method = value.method;
        row.place = retest.place ? t.s.book.name(*retest.place) : "";
        row.who = retest.who;
        row.standing = "says nothing about maturing";
        story.tests.push_back(std::move(row));
    }
}

void tell_tests(const Telling& t, AgingStory& story) {
    const auto surprises = aging::surprises(t.made.flour, t.made.priors, t.made.results.evidence);
    for (const auto& standing : t.made.results.standing) {
        TestRow row;
        const Certificate* results = &t.lot.certificate;
        row.taken_on = t.lot.milled_on.value_or(t.lot.delivered_on);
        row.who = "the mill";
        if (standing.retest) {
            const auto retests = t.s.book.retests_of(t.lot.id);
            const auto at = std::find_if(retests.begin(), retests.end(), [&](const Retest* retest) {
                return retest->id == *standing.retest;
            });
            results = &(*at)->results;
            row.taken_on = (*at)->taken_on;
            row.who = (*at)->who;
            row.place = (*at)->place ? t.s.book.name(*(*at)->place) : "";
        }
        const auto* value = results->find(standing.property);
        row.retest = standing.retest;
        row.property = standing.property;
        row.value = value->value;
        row.basis = in_words(value->basis);
        row.method = value->method;
        row.counts = standing.counts;
        row.standing = standing.why;
        for (const auto& surprise : surprises) {
            if (surprise.property != standing.property ||
                std::abs(surprise.standard_errors) <= aging::check_from())
                continue;
            const auto series =
                std::find_if(t.made.results.evidence.begin(), t.made.results.evidence.end(),
                             [&](const auto& one) { return one.property == surprise.property; });
            const auto& observation = series->observations[surprise.observation];
            if (standing.stands && observation.at == aging::days_of(row.taken_on) &&
                observation.is_fresh == !standing.retest) {
                row.asks_check = true;
                row.standing =
                    fmt::format("{}check it: {:.1f} standard errors {} what the others predict",
                                standing.counts ? "counts, but " : "", std::abs(surprise.standard_errors),
                                surprise.standard_errors < 0 ? "below" : "above");
            }
        }
        story.tests.push_back(std::move(row));
    }
    for (const Retest* retest : t.s.book.retests_of(t.lot.id))
        if (!retest->is_withdrawn)
            tell_other_results(t, *retest, story);
}

void tell_runs(const Telling& t, AgingStory& story) {
    const auto cuts = aging::published_cut_points();
    for (const auto& a : t.s.book.assignments) {
        const Run* run = a.lot == t.lot.id ? t.s.book.run(a.run) : nullptr;
        if (!run || run->day < t.s.today())
            continue;
        const Product* product = t.s.book.product(run->product);
        const Line* line = t.s.book.line(run->line);
        story.runs.push_back({run->id,
                              fmt::format("{}, {}: {} kg", product ? product->name : "?",
                                          line ? line->name : "?", fixed(to_kilograms(a.mass).value(), 0)),
                              run->day, t.estimate.probability_of(Maturity{cuts.mature_maturity}, run->day),
                              t.estimate.probability_of_age(cuts.past_best_age, run->day)});
    }
    std::sort(story.runs.begin(), story.runs.end(),
              [](const auto& a, const auto& b) { return a.day < b.day; });
}

void tell_worth(const Telling& t, AgingStory& story) {
    for (const auto& worth :
         aging::retest_worth(t.made.flour, t.made.priors, t.made.results.evidence, t.s.today()))
        story.retests.push_back({worth.property, worth.days_now, worth.days_expected, worth_words(worth)});
}

/// The same flour, put into another place on a day.
aging::StoragePath moved_to(aging::StoragePath path, const aging::ClimatePtr& climate, double at) {
    std::erase_if(path, [&](const aging::Stay& stay) { return stay.from >= at; });
    for (auto& stay : path)
        stay.until = std::min(stay.until, at);
    path.push_back({climate, at});
    return path;
}

void tell_elsewhere(const Telling& t, AgingStory& story) {
    const double at = aging::days_of(std::max(t.day, t.lot.delivered_on));
    const auto here = aging::turns(t.estimate, t.s.estimates.confidence());
    for (const auto& place : t.s.book.places) {
        const auto climate = t.s.estimates.climate(place.id);
        const auto* stay = main_stay(t.path(), at);
        if (stay && stay->climate == climate)
            continue;
        auto flour = t.made.flour;
        flour.path = moved_to(flour.path, climate, at);
        const auto there = aging::turns(aging::Estimate(flour, t.made.priors, t.made.results.evidence),
                                        t.s.estimates.confidence());
        const double mean = climate->temperature(at, at + 30).mean.value();
        story.elsewhere.push_back({place.id, place.name, there.mature_from, there.past_best_from,
                                   elsewhere_words(mean, here, there)});
    }
}

void tell_keeping(const Telling& t, AgingStory& story) {
    const double at = aging::days_of(t.day);
    std::vector<aging::StorageAlarm> alarms = moisture_alarms_on(t.path(), t.made.moisture, t.day);
    if (const auto wet = aging::condensation_alarm(t.path(), at))
        alarms.push_back(*wet);
    if (t.made.moisture) {
        const auto moisture =
            aging::moisture_on(t.path(), *t.made.moisture, at).value_or(t.made.moisture->moisture);
        story.moisture_now = moisture.value();
        story.water_activity_now =
            aging::water_activity(moisture, aging::flour_temperature_on(t.path(), at)).value();
    }
    std::vector<aging::FatAcidityTest> tests;
    const auto add = [&](const Certificate& results, Day taken_on, bool is_the_mills) {
        if (const auto value = comparable_at_14(results, Property::fat_acidity))
            tests.push_back({aging::FatAcidity{*value}, taken_on, results.find(Property::fat_acidity)->method,
                             is_the_mills});
    };
    add(t.lot.certificate, t.lot.milled_on.value_or(t.lot.delivered_on), true);
    for (const Retest* retest : t.s.book.retests_of(t.lot.id))
        if (!retest->is_withdrawn)
            add(retest->results, retest->taken_on, false);
    const auto line = aging::fat_acidity_line(t.estimate, tests, t.day);
    story.fat_acidity_limit_on = {line.limit_on.early, line.limit_on.likely, line.limit_on.late};
    story.fat_acidity_words = fat_acidity_words(line);
    if (line.limit_on.likely && *line.limit_on.likely <= t.day)
        alarms.push_back({true, "Fat acidity is likely over its limit"});
    const auto outlook = aging::outlook(t.estimate, t.day, t.s.estimates.confidence());
    const auto advised = aging::advise(outlook, alarms);
    story.advice = shown(advised.advice);
    story.reasons = advised.reasons;
    story.ready = shown(outlook.mature);
    story.past_best = shown(outlook.past_best);
    story.ready_at_confidence = outlook.turns.mature_from;
    story.use_first_on = outlook.turns.use_first_from;
    story.past_best_at_confidence = outlook.turns.past_best_from;
    for (const auto& alarm : alarms)
        story.alarms.push_back({alarm.is_stop, alarm.words});
}

AgingStory story_of(const Station& s, const Lot& lot, Day as_of) {
    const Telling t{s, lot, as_of, s.estimates.of(lot.id), s.estimates.evidence(s.book, lot)};
    AgingStory story;
    story.lot = lot.id;
    story.code = lot.code;
    story.changed = s.changed_elsewhere(record_of(lot.id));
    const Flour* flour = s.book.flour(lot.flour);
    story.flour = flour ? flour->name : "?";
    tell_runs(t, story);
    tell_days(t, story);
    tell_storage(t, story);
    tell_tests(t, story);
    for (const auto& series : t.made.results.evidence)
        story.courses.push_back(course_of(t, series, story));
    tell_worth(t, story);
    tell_elsewhere(t, story);
    tell_keeping(t, story);
    story.origins = origins_of(s, lot, t.made);
    for (const auto reservation : t.estimate.reservations(t.day))
        story.reservations.push_back(aging::in_words(reservation));
    return story;
}

} // namespace

std::optional<AgingStory> make_story(const Station& s, LotId id, std::optional<Day> as_of) {
    const Lot* lot = id.is_known() && !s.book.is_aside(id) ? s.book.lot(id) : nullptr;
    return lot ? std::optional(story_of(s, *lot, as_of.value_or(s.today()))) : std::nullopt;
}

} // namespace mellowbin::app
