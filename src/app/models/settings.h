#pragma once

#include "app/models/doughs.h"
#include "app/models/journal.h"
#include "app/models/learning.h"
#include "app/models/scanner.h"
#include "app/models/storage.h"
#include "core/limit.h"
#include "core/limit_draft.h"
#include "core/test_precision.h"

#include <cstdint>
#include <string>
#include <vector>

namespace mellowbin::app {

struct ConstantRow {
    std::string key, value, unit, range, conditions, source,
        standing; ///< standing: "read", "from memory", "assumption"
};

struct LimitLine {
    LimitRef id;
    std::string market, substance, food, figure, rule, source, holds, standing;
    bool is_confirmed = false;
    bool matters = false;     ///< of a market that a product is sold in
    LimitDraft draft = {};    ///< as a form starts
    std::string changed = {}; ///< "04:12, Ines": by another station, last
};

/// "200 mg/kg", "good practice", "not permitted"
std::string figure_in_words(const LimitRow& row);
std::string figure_in_words(const PropionateRow& row);

/// How far two laboratories' results of a property may lie apart.
struct PrecisionLine {
    std::int64_t row = 0; ///< of the plant's own; 0: published
    std::string property, method, limits, range, source;
    std::string standing;          ///< "read", "from memory", "entered by Ines, 2026-11-02"
    TestPrecisionDraft draft = {}; ///< as a form starts
    std::string changed = {};      ///< "04:12, Ines": by another station, last
};

struct SettingRow {
    std::string key, label, value, unit, what, who, since;
    std::string when_empty = {}; ///< what holds where no value is said
    bool is_lines = false;       ///< of text, one under another: the Plant screen has them
    bool is_test_error = false;  ///< of the laboratory's own, of one test
};

struct SettingsModel {
    std::vector<PlaceRow> places;
    LogRead log_read; ///< here, last; no file: none was read since the start
    LearningModel learning;
    ScannerModel scanner;
    DoughsModel doughs;
    std::vector<ConstantRow> constants;
    std::string best_time_words;   ///< how published best times are read, and what other readings would give
    std::vector<LimitLine> limits; ///< on oxidants, then on propionates; those that matter first
    std::uint64_t limits_changed = 0;     ///< counts accepted corrections: the view empties its form by it
    std::vector<PrecisionLine> precision; ///< the plant's own first, then the published ones
    std::uint64_t precision_changed = 0;  ///< counts accepted rows
    std::vector<SettingRow> settings;
    std::vector<JournalRow> journal; ///< a page of it, newest first
    bool journal_has_newer = false, journal_has_older = false;
};

struct Station;

/// All but the places, the learning, the scanner and the journal.
SettingsModel make_settings(const Station& station);

} // namespace mellowbin::app
