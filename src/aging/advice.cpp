#include "aging/advice.h"

#include <fmt/format.h>

namespace mellowbin::aging {
namespace {

std::string until_past_best(const Turns& turns) {
    return turns.past_best_from ? "; best until " + short_day(*turns.past_best_from) : "";
}

Advised by_readiness(const Outlook& outlook) {
    const auto& turns = outlook.turns;
    const double chance = 100 * outlook.probability_mature;
    switch (outlook.now) {
    case Readiness::past_best:
        return {Advice::hold,
                {fmt::format("Past its best since {} by the age clock", short_day(*turns.past_best_from))}};
    case Readiness::use_first:
        return {Advice::use_first,
                {fmt::format("Half of its life is likely over since {}{}", short_day(*turns.use_first_from),
                             until_past_best(turns))}};
    case Readiness::mature:
        return {Advice::use,
                {fmt::format("Mature with a probability of {:.0f} %{}", chance, until_past_best(turns))}};
    case Readiness::usable:
    case Readiness::young:
        break;
    }
    const std::string ready = turns.mature_from ? "ready from " + short_day(*turns.mature_from)
                                                : "not ready within two years by the estimate";
    if (outlook.now == Readiness::usable)
        return {Advice::wait, {fmt::format("Half matured, {}: good for products that ask for less", ready)}};
    return {Advice::wait, {fmt::format("Young, {}", ready)}};
}

} // namespace

Advised advise(const Outlook& outlook, std::span<const StorageAlarm> alarms) {
    Advised advised = by_readiness(outlook);
    std::vector<std::string> stops, looks;
    for (const auto& alarm : alarms)
        (alarm.is_stop ? stops : looks).push_back(alarm.words);
    if (!stops.empty())
        advised.advice = Advice::hold;
    advised.reasons.insert(advised.reasons.begin(), stops.begin(), stops.end());
    advised.reasons.insert(advised.reasons.end(), looks.begin(), looks.end());
    return advised;
}

} // namespace mellowbin::aging
