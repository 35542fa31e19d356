#include "app/models/learning.h"

#include "app/book/book.h"
#include "app/book/estimates.h"
#include "app/book/station.h"
#include "app/models/aging_words.h"
#include "core/decimal.h"
#include "core/literature/constants.h"
#include "core/normal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::app {
namespace {

namespace lit = literature;
using aging::Amplitude;
using aging::Lognormal;

constexpr double no_change = 0.02; // of a property: less is none, in practice

std::string rate_words(const Lognormal& rate) {
    return fmt::format("{} per day ({} to {} in 80 of 100)", fixed(rate.median, 3),
                       fixed(rate.median / std::pow(rate.gsd, to_10_and_90), 3),
                       fixed(rate.median * std::pow(rate.gsd, to_10_and_90), 3));
}

std::string change_words(const aging::MaturingTest& test, const Amplitude& change) {
    const bool is_share = test.change == aging::ChangeKind::share;
    const double factor = is_share ? 100 : 1;
    const auto shown = [&](double value) { return fmt::format("{:+.1f}", factor * value); };
    return fmt::format("{} {} ({} to {} in 80 of 100)", shown(change.mean), is_share ? "%" : "points",
                       shown(change.mean - to_10_and_90 * change.sd),
                       shown(change.mean + to_10_and_90 * change.sd));
}

std::string codes_of(const Book& book, const std::vector<LotId>& lots) {
    constexpr std::size_t most = 6;
    std::string words = fmt::format("{} {}", lots.size(), lots.size() == 1 ? "lot" : "lots");
    for (std::size_t i = 0; i < std::min(most, lots.size()); ++i)
        if (const Lot* lot = book.lot(lots[i]))
            words += (i == 0 ? ": " : ", ") + lot->code;
    return lots.size() > most ? words + ", …" : words;
}

std::string rate_meaning(const Lognormal& published, const Lognormal& learned) {
    const double ratio = learned.median / published.median;
    const bool is_narrower = std::log(learned.gsd) < 0.9 * std::log(published.gsd);
    if (!is_narrower)
        return "the retests do not say more of it than what is published";
    if (std::abs(std::log(ratio)) < std::log(1.1))
        return "matures about as fast as published, known more closely";
    return ratio > 1 ? fmt::format("matures about {:.1f} times faster than published", ratio)
                     : fmt::format("matures about {:.1f} times slower than published", 1 / ratio);
}

std::string change_meaning(const aging::MaturingTest& test, const Amplitude& learned) {
    const double low = learned.mean - to_10_and_90 * learned.sd,
                 high = learned.mean + to_10_and_90 * learned.sd;
    const double none = test.change == aging::ChangeKind::share ? no_change : test.error;
    if (low > -none && high < none)
        return "does not change with storage here";
    if (low < 0 && high > 0)
        return "may or may not change with storage here";
    return learned.mean > 0 ? "rises with storage here" : "falls with storage here";
}

LearnedRow rate_row(std::string what, const Lognormal& published, const Lognormal& holds,
                    const Lognormal& offered, std::string from) {
    return {std::move(what),     rate_words(published), rate_words(holds),
            rate_words(offered), std::move(from),       rate_meaning(published, offered)};
}

std::vector<LearnedRow> rows_of(const Book& book, const aging::Learned& holds,
                                const aging::Learned& offered) {
    const aging::Learned published;
    std::vector<LearnedRow> rows;
    std::vector<LotId> all;
    std::vector<FlourClass> classes;
    for (const auto& lesson : offered.lessons()) {
        all.push_back(lesson.lot);
        if (std::find(classes.begin(), classes.end(), lesson.flour_class) == classes.end())
            classes.push_back(lesson.flour_class);
    }
    std::sort(classes.begin(), classes.end());
    for (const auto flour_class : classes)
        rows.push_back(
            rate_row(fmt::format("Maturing rate of {} flour at 20 °C, this plant", name_of(flour_class)),
                     published.plant_rate(flour_class), holds.plant_rate(flour_class),
                     offered.plant_rate(flour_class), codes_of(book, all)));
    for (const auto& group : offered.groups()) {
        const Mill* mill = book.mill(group.mill);
        const Flour* flour = book.flour(group.flour);
        if (!mill || !flour)
            continue;
        rows.push_back(rate_row(
            fmt::format("Maturing rate, {}, {}", flour->name, mill->name),
            published.group_rate(flour->flour_class, group), holds.group_rate(flour->flour_class, group),
            offered.group_rate(flour->flour_class, group), codes_of(book, offered.lots_of(group))));
    }
    for (const auto& test : aging::maturing_tests()) {
        const auto lots = offered.lots_of(test.property);
        if (lots.empty())
            continue;
        const auto learned = offered.plant_change(test.property);
        rows.push_back({fmt::format("Change of {} from fresh to mature", traits(test.property).name),
                        change_words(test, published.plant_change(test.property)),
                        change_words(test, holds.plant_change(test.property)), change_words(test, learned),
                        codes_of(book, lots), change_meaning(test, learned)});
    }
    return rows;
}

} // namespace

aging::Learned learned_from(const Book& book, const Estimates& estimates) {
    std::vector<aging::TaughtBy> lots;
    for (auto lot = book.lots.rbegin(); lot != book.lots.rend() && lots.size() < most_taught_by; ++lot) {
        if (book.retests_of(lot->id).empty() || book.is_aside(lot->id))
            continue;
        auto evidence = estimates.evidence(book, *lot).results.evidence;
        std::erase_if(evidence, [](const aging::Series& series) { return series.observations.size() < 2; });
        if (!evidence.empty())
            lots.push_back({lot->id, {lot->mill, lot->flour}, &estimates.of(lot->id), std::move(evidence)});
    }
    return aging::Learned(aging::learn(lots));
}

std::string too_little(const aging::Learned& learned) {
    const auto least = static_cast<std::size_t>(lit::aging_learning_least_lots.value);
    if (learned.lessons().size() >= least)
        return {};
    return fmt::format("{} {} retested twice by one method so far; {} are needed", learned.lessons().size(),
                       learned.lessons().size() == 1 ? "lot was" : "lots were", least);
}

std::string changes_in_words(const aging::Learned& learned) {
    const aging::Learned published;
    std::string words;
    for (const auto flour_class : {FlourClass::white, FlourClass::high_extraction, FlourClass::wholemeal})
        words +=
            fmt::format("{}: {}, was {}\n", name_of(flour_class), rate_words(learned.plant_rate(flour_class)),
                        rate_words(published.plant_rate(flour_class)));
    for (const auto& test : aging::maturing_tests())
        if (!learned.lots_of(test.property).empty())
            words += fmt::format("{}: {}, was {}\n", traits(test.property).name,
                                 change_words(test, learned.plant_change(test.property)),
                                 change_words(test, published.plant_change(test.property)));
    return words;
}

LearningModel make_learning(const Station& s, const std::optional<aging::Learned>& offered) {
    LearningModel model;
    const auto& holds = s.estimates.learned();
    model.is_learned = s.book.learning.has_value();
    model.standing = s.book.learning
                         ? fmt::format("{} since {}, by {}.", s.book.learning->words,
                                       iso(s.book.learning->at).substr(0, 10), s.book.learning->who)
                         : "The published figures hold.";
    const auto mute = std::count_if(holds.lessons().begin(), holds.lessons().end(),
                                    [](const aging::Lesson& lesson) { return lesson.properties.empty(); });
    if (mute > 0)
        model.standing +=
            fmt::format(" {} of its lots taught when glutathione counted for the dough: they say "
                        "nothing now. Compare and adopt anew.",
                        mute);
    model.is_stale = !offered;
    if (offered) {
        model.rows = rows_of(s.book, holds, *offered);
        model.blocked = too_little(*offered);
    } else {
        model.blocked = "Compare with the retests first";
    }
    return model;
}

} // namespace mellowbin::app
