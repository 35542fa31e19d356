#include "app/acts/fields.h"

#include "app/plan/parts.h"

#include <cmath>

namespace mellowbin::app {

std::optional<Day> read_given_day(std::string_view field, const std::string& text, Refusals& refusals) {
    const auto day = read_day(field, text);
    if (!day)
        append(refusals, day.refusals());
    else if (!*day)
        refusals.push_back({std::string(field), "is empty", "Enter the day as year-month-day"});
    return day ? *day : std::nullopt;
}

std::optional<int> read_count(std::string_view field, const std::string& text, int most, Refusals& refusals) {
    const auto read = read_required_decimal(field, text, {1, static_cast<double>(most), ""});
    if (!read) {
        append(refusals, read.refusals());
        return {};
    }
    if (*read != std::floor(*read)) {
        refusals.push_back({std::string(field),
                            fmt::format("{:g} was read; a whole number is expected", *read),
                            "Enter a whole number"});
        return {};
    }
    return static_cast<int>(*read);
}

std::optional<Grams> read_mass(const std::string& text, Refusals& refusals) {
    const auto read = read_required_decimal("Weight", text, {0.001, 1'000'000, "kg"});
    if (!read) {
        append(refusals, read.refusals());
        return {};
    }
    return to_grams(Kilograms{*read});
}

std::string kg_words(Grams mass) {
    const int decimals = mass.count() % 1000 == 0 ? 0 : mass.count() % 100 == 0 ? 1 : 3;
    return fixed(to_kilograms(mass).value(), decimals) + " kg";
}

RestoreAssignments as_they_stand(const Book& book, std::vector<RunId> runs) {
    const auto of_them = [&](const auto& given) {
        return std::find(runs.begin(), runs.end(), given.run) != runs.end();
    };
    RestoreAssignments before;
    std::copy_if(book.assignments.begin(), book.assignments.end(), std::back_inserter(before.assignments),
                 of_them);
    std::copy_if(book.promises.begin(), book.promises.end(), std::back_inserter(before.promises), of_them);
    before.runs = std::move(runs);
    return before;
}

Intents putting_back(RestoreAssignments before, const std::vector<Assignment>& after, LotId lot) {
    Intents acts;
    for (const auto& a : after)
        if (a.lot == lot && a.is_locked)
            acts.push_back(UnlockAssignment{a.run, lot});
    std::vector<LockAssignment> locked;
    for (auto& a : before.assignments) {
        if (a.lot != lot || !a.is_locked)
            continue;
        a.is_locked = false;
        locked.push_back({a.run, lot});
    }
    acts.push_back(std::move(before));
    acts.insert(acts.end(), locked.begin(), locked.end());
    return acts;
}

Grams free_of(const Book& book, LotId lot) {
    Grams free = book.stock.total(lot) - kept_back(book, lot);
    for (const auto& a : book.assignments)
        if (a.lot == lot)
            free = free - std::max(Grams{0}, a.mass - book.used_for(a.run, lot));
    return std::max(Grams{0}, free);
}

} // namespace mellowbin::app
