#include "app/plan/expected.h"

#include "app/book/settings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::app {
namespace {

constexpr std::size_t lots_in_a_mean = 3; // common practice, no source

/// Its mill's newest lots of its flour, the newest first; of any mill's where nobody said which.
std::vector<const Lot*> newest_like(const Book& book, const ExpectedDelivery& delivery) {
    std::vector<const Lot*> like;
    for (const auto& lot : book.lots) {
        const bool is_like = lot.flour == delivery.flour && lot.state != LotState::rejected &&
                             (lot.mill == delivery.mill || !delivery.mill.is_known());
        if (is_like)
            like.push_back(&lot);
    }
    std::stable_sort(like.begin(), like.end(), [](const Lot* a, const Lot* b) {
        return std::pair{a->delivered_on, a->id} > std::pair{b->delivered_on, b->id};
    });
    return like;
}

Basis stated_at_14(Property property) {
    return traits(property).has_basis ? Basis::at(Moisture{14}) : Basis{};
}

/// By the newest lots that have a comparable figure, and by the newest one's method.
std::optional<CertificateValue> mean_of(const std::vector<const Lot*>& lots, Property property) {
    double sum = 0;
    int known = 0;
    std::string method;
    for (const Lot* lot : lots) {
        const auto value = comparable_at_14(lot->certificate, property);
        const auto* reported = lot->certificate.find(property);
        if (!value || !reported || (known > 0 && reported->method != method))
            continue;
        method = reported->method;
        sum += *value;
        ++known;
    }
    if (known == 0)
        return {};
    return CertificateValue{property, sum / known, stated_at_14(property), method, wheat_nitrogen_factor};
}

/// Of a window that is open on one side: half a width inside its end.
double middle_of(const Window& window) {
    if (window.low && window.high)
        return (*window.low + *window.high) / 2;
    return window.low ? *window.low + window.half_width() : *window.high - window.half_width();
}

struct Figures {
    Certificate certificate;
    std::string words;
};

Figures figures_of(const Book& book, const ExpectedDelivery& delivery, std::vector<const Lot*> lots) {
    lots.resize(std::min(lots.size(), lots_in_a_mean));
    Figures figures;
    std::string from_specification;
    const Flour* flour = book.flour(delivery.flour);
    for (const auto& kind : all_properties()) {
        if (const auto mean = mean_of(lots, kind.property)) {
            figures.certificate.set(*mean);
            continue;
        }
        if (!flour)
            continue;
        const auto window = std::find_if(flour->specification.begin(), flour->specification.end(),
                                         [&](const Window& w) { return w.property == kind.property; });
        if (window == flour->specification.end())
            continue;
        figures.certificate.set({kind.property, middle_of(*window), stated_at_14(kind.property),
                                 window->method, wheat_nitrogen_factor});
        from_specification += (from_specification.empty() ? "" : ", ") + std::string(kind.name);
    }
    if (!lots.empty())
        figures.words = lots.size() == 1
                            ? "figures as of its last lot"
                            : fmt::format("figures as the mean of its last {} lots", lots.size());
    if (!from_specification.empty())
        figures.words += fmt::format("{}{} as the middle of the specification",
                                     figures.words.empty() ? "" : "; ", from_specification);
    if (figures.words.empty())
        figures.words = "no figures known";
    return figures;
}

/// Where such flour was put the last time; without an example, the plant's first place.
aging::ClimatePtr usual_air(const Book& book, const Estimates& estimates, FlourId flour) {
    const Lot* newest = nullptr;
    for (const auto& lot : book.lots)
        if (lot.flour == flour && (!newest || lot.delivered_on >= newest->delivered_on))
            newest = &lot;
    if (newest && book.place(newest->received_into))
        return estimates.climate(newest->received_into);
    if (!book.places.empty())
        return estimates.climate(book.places.front().id);
    return std::make_shared<aging::ClimateCourse>(Place{});
}

Day arrival(const ExpectedDelivery& delivery, Day today) {
    return is_late(delivery, today) ? today + Days{1} : delivery.arrives;
}

std::shared_ptr<const aging::Estimate> estimate_of(const Book& book, const Estimates& estimates,
                                                   const ExpectedDelivery& delivery, const Lot& lot) {
    const Flour* flour = book.flour(delivery.flour);
    const auto flour_class = flour ? flour->flour_class : FlourClass::white;
    const aging::StoredFlour fresh{
        flour_class,
        lot.milled_on,
        lot.delivered_on,
        {{usual_air(book, estimates, delivery.flour), aging::days_of(lot.delivered_on)}},
        lot.certificate.moisture()};
    return std::make_shared<aging::Estimate>(
        fresh, estimates.learned().priors(flour_class, {delivery.mill, delivery.flour}, {}));
}

} // namespace

bool is_late(const ExpectedDelivery& delivery, Day today) {
    return !delivery.has_come && delivery.arrives < today;
}

Day usable_from(const Book& book, const ExpectedDelivery& delivery, Day today) {
    const Days to_release{static_cast<int>(std::ceil(Choices(book.settings).number("days_to_release")))};
    return arrival(delivery, today) + to_release;
}

Expectation expectation_of(const Book& book, const Estimates& estimates, const ExpectedDelivery& delivery,
                           Day today) {
    const auto like = newest_like(book, delivery);
    auto figures = figures_of(book, delivery, like);
    PlanFlour flour;
    flour.delivery = delivery.id;
    flour.lot.code = delivery.code;
    flour.lot.mill = delivery.mill;
    flour.lot.flour = delivery.flour;
    flour.lot.milled_on = delivery.milled;
    flour.lot.delivered_on = arrival(delivery, today);
    flour.lot.received = delivery.mass;
    flour.lot.certificate = std::move(figures.certificate);
    flour.lot.state = LotState::released; // by the day it is usable from
    if (!like.empty())
        flour.lot.mill_additions = like.front()->mill_additions;
    flour.estimate = estimate_of(book, estimates, delivery, flour.lot);
    flour.past_best = aging::turns(*flour.estimate, estimates.confidence()).past_best_from;
    flour.usable_from = usable_from(book, delivery, today);
    return {std::move(flour), std::move(figures.words)};
}

} // namespace mellowbin::app
