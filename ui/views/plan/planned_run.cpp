#include "ui/views/plan/planned_run.h"

#include "app/acts/assignments.h"
#include "app/acts/intent.h"
#include "app/models/maturity_words.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "app/models/run_trouble.h"
#include "ui/views/common/day_words.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {

using namespace ui;

namespace {

constexpr double edge_from = 0.9; ///< below it the eye is not called

RunPart strength(const app::PlannedRun& run) {
    if (run.lots.empty())
        return {"Strength", "no lots", Role::quiet};
    if (app::is_mature_enough(run.maturity, run.maturity_target))
        return {"Strength", "enough", Role::good};
    if (run.oxidant_ppm > 0)
        return {"Strength", fmt::format("with {:.2f} mg/kg", run.oxidant_ppm), Role::mind};
    return {"Strength", app::of_words(Maturity{run.maturity}, Maturity{run.maturity_target}), Role::stop};
}

RunPart specification(const app::PlannedRun& run) {
    if (run.lots.empty())
        return {"Specification", "no lots", Role::quiet};
    if (!run.windows_words.empty())
        return {"Specification", run.windows_words, Role::stop};
    return run.windows_fill > edge_from ? RunPart{"Specification", "near the edge", Role::mind}
                                        : RunPart{"Specification", "inside", Role::good};
}

using Ruling = app::CardVerdict::Ruling;

Role role_of(Ruling ruling) {
    return ruling == Ruling::mix ? Role::good : ruling == Ruling::answer_first ? Role::mind : Role::stop;
}

/// Something stands against the next batch that a planner can do something about: bags are scanned at the
/// bowl.
bool has_verdict_to_tell(const app::PlannedRun& run) {
    return run.verdict && std::any_of(run.verdict->reasons.begin(), run.verdict->reasons.end(),
                                      [](const auto& reason) { return reason.key != "bags_not_scanned"; });
}

/// What stands against the next batch comes before the share of the law's room.
RunPart law(const app::PlannedRun& run) {
    if (has_verdict_to_tell(run))
        return {"Card", run.verdict->words, role_of(run.verdict->ruling)};
    if (!run.dose_withheld.empty() || run.keeping_withheld)
        return {"Law",
                run.dose_withheld.empty() ? "preservative withheld"
                : run.keeping_withheld    ? "doses withheld"
                                          : "dose withheld",
                Role::stop};
    if (run.law_fill > 1)
        return {"Law", "over the limit", Role::stop};
    return {"Law", run.law_fill <= 0 ? "nothing added" : percent(run.law_fill) + " used",
            run.law_fill > edge_from ? Role::mind : Role::good};
}

bool is_locked(const app::PlannedRun& run) {
    return std::any_of(run.lots.begin(), run.lots.end(), [](const auto& lot) { return lot.is_locked; });
}

} // namespace

std::array<RunPart, 3> parts_of(const app::PlannedRun& run) {
    return {strength(run), specification(run), law(run)};
}

std::vector<RunFault> faults_of(const app::PlannedRun& run) {
    std::vector<RunFault> faults;
    if (run.short_kg > 0)
        faults.push_back({fmt::format("short {} kg", kilograms(run.short_kg)), Role::stop});
    for (auto& part : parts_of(run)) {
        const bool asks_first = part.name == "Card" && part.role == Role::mind;
        if (part.role == Role::stop || asks_first)
            faults.push_back({std::move(part.words), part.role});
    }
    return faults;
}

std::string remark_of(const app::PlannedRun& run) {
    if (run.is_changed)
        return run.is_frozen ? "changed, fixed" : "changed";
    if (run.is_past)
        return "past";
    return run.is_frozen ? "fixed" : is_locked(run) ? "locked" : "";
}

std::optional<Texture> texture_of(const app::PlannedLot& lot) {
    if (!lot.readiness)
        return {};
    switch (*lot.readiness) {
    case app::Readiness::young:
        return Texture::young;
    case app::Readiness::usable:
        return Texture::usable;
    case app::Readiness::ready:
    case app::Readiness::use_first:
        return Texture::ready;
    case app::Readiness::past_best:
        break;
    }
    return Texture::past_best;
}

std::string lots_in_words(const app::PlannedRun& run) {
    std::string words;
    for (const auto& lot : run.lots)
        words += fmt::format("{}{} {} kg{}", words.empty() ? "" : ", ", lot.code, kilograms(lot.kg),
                             lot.is_locked         ? " (locked)"
                             : !lot.lot.is_known() ? " (to come)"
                                                   : "");
    return words;
}

std::optional<std::int64_t> chosen_lot(const app::PlannedRun& run, std::optional<std::int64_t> chosen) {
    if (lot_of(run, chosen) != nullptr)
        return chosen;
    return run.lots.size() == 1 ? std::optional(share_key(run.lots.front())) : std::nullopt;
}

void turn_lock(const app::PlannedRun& run, std::optional<std::int64_t> chosen, app::Intents& out) {
    const auto* lot = lot_of(run, chosen_lot(run, chosen));
    if (lot == nullptr || !lot->lot.is_known() || !may_change(run))
        return;
    if (lot->is_locked)
        out.emplace_back(app::UnlockAssignment{run.id, lot->lot});
    else
        out.emplace_back(app::LockAssignment{run.id, lot->lot});
}

} // namespace mellowbin::views
