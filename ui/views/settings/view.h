#pragma once

#include "app/acts/notice.h"
#include "app/models/overview.h"
#include "app/models/settings.h"
#include "ui/views/common/form.h"
#include "ui/views/settings/doughs.h"
#include "ui/views/settings/limit_form.h"
#include "ui/views/settings/precision.h"
#include "ui/views/settings/scanner.h"
#include "ui/views/settings/storage.h"
#include "ui/widgets/table.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>

namespace mellowbin::views {

/// A choice of the plant as typed, and what it was when that began.
struct TypedChoice {
    std::string text, over;
};

/// Every number the program assumes, with its source and who changed it.
struct SettingsView {
    static constexpr int last_page = 8;
    int page = 0; ///< limits, constants, choices, storage, learned, doughs, journal, test precision, scanner
    ui::TableState limits, constants, journal;
    bool only_to_confirm = false;
    std::optional<std::int64_t> limit_to_confirm; ///< its record
    LimitForm limit_form;
    StoragePage storage;
    DoughsPage doughs;
    PrecisionPage precision;
    ScannerPage scanner;

    std::map<std::string, TypedChoice> typed; ///< by key, until they are kept
    std::string sent;                         ///< key of the choice that is being answered
    Asked asked;

    void show_choices();
    /// Scans of its test symbols are judged there.
    [[nodiscard]] bool shows_scanner() const { return page == last_page; }
};

void draw(SettingsView& view, const app::SettingsModel& model, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out);

} // namespace mellowbin::views
