#pragma once

#include "app/acts/notice.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/overview.h"
#include "app/models/settings.h"

#include <cstddef>

/// Read-models as the application would make them, for the tests and the frame benchmark of Intake, Lots,
/// Settings and the workbench: an invented bakery on Wed 25 Nov 2026.
namespace mellowbin::test {

/// What waits on every screen, a person and a book.
app::Overview a_busy_morning();
/// Lists to choose from, five figures asked first, three checks at the door.
app::IntakeModel an_empty_dock();
/// The same after a certificate file of two lots was read.
app::IntakeModel a_dock_with_a_file();
/// Seven lots in all states; one opened beside them on request.
app::LotsModel seven_lots();
app::LotSheet a_sheet();
/// As many lots as asked for, the first opened.
app::LotsModel many_rows(std::size_t count);
/// Limits (one confirmed, one not, one of a market that does not matter), constants, choices, places, what
/// the retests say, journal.
app::SettingsModel some_settings();

app::Notice done(std::uint64_t number, std::string words);
app::Notice refused(std::uint64_t number, Refusals refusals);
app::Notice failed(std::uint64_t number);

} // namespace mellowbin::test
