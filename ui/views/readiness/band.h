#pragma once

#include "app/models/outlook.h"
#include "app/models/readiness.h"
#include "ui/views/readiness/groups.h"
#include "ui/widgets/chart.h"

#include <string>
#include <vector>

/// A lot as a band over days.
namespace mellowbin::views {

/// What one row of the chart borrows while it is drawn.
struct LotBand {
    std::vector<ui::Span> spans;
    std::vector<ui::BandTick> ticks;
    std::vector<ui::BandRemark> remarks;
    std::string detail, words, advice, evidence, measured, amount, state;

    void fill(const app::ReadinessRow& row, const app::ReadinessModel& model, ui::BandRow& band);
    void fill(const FlourGroup& group, ui::BandRow& band);

private:
    void remark(const app::ReadinessRow& row);
};

/// The band's quantiles from the three that the estimate gives: each side of the likely day is taken as half
/// a normal curve (an assumption for drawing only). A late day beyond the studied time leaves the band open
/// to the right.
std::optional<ui::Fade> fade_of(const app::DaySpread& spread);

/// Of a released lot the role of its readiness; else of its state: held flour is stop however ready it is.
ui::Role state_role(const app::ReadinessRow& row);
/// "ready"; "Held, ready" when it is not released.
std::string state_words(const app::ReadinessRow& row);
/// "usable, ready 3 Dec": with what comes next.
std::string state_and_day(const app::ReadinessRow& row, Day as_of);
/// "no results", "2 results", "2 results, check": those that count as evidence.
std::string evidence_words(const app::ReadinessRow& row);
/// "83 % measured": of its storage so far.
std::string measured_words(const app::ReadinessRow& row);

} // namespace mellowbin::views
