#pragma once

#include "app/models/mill_lots.h"
#include "core/beside_certificate.h"
#include "core/complaint.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

/// How a mill's flour and deliveries were, over a span of days: asked for by query, at the cost of the mill's
/// lots of those days.
namespace mellowbin::app {

/// What is asked for. The days are both included.
struct MillRecordQuery {
    MillId mill;
    Day from, until;
    int page = 0; ///< of the table of lots
};

/// How well it kept to the days on which its flour was expected.
struct MillPunctuality {
    int on_time = 0, late = 0;        ///< deliveries; early ones are on time
    int most_days_late = 0;           ///< 0: none was late
    std::vector<std::string> overdue; ///< "E-3: 24 000 kg Strong white, expected on 2026-11-20"
};

struct MillReturnRow {
    std::string lot;
    double kg = 0;
    std::string reason, document, at, who;
};

struct ComplaintRow {
    ComplaintId id;
    std::string about;   ///< "Protein", "Bags"
    std::string words;   ///< "Protein, lot W24-118, 1 000 kg: lower than on the certificate"
    std::string noticed; ///< "Noticed 2026-11-20 · Ines"
    std::string answer;  ///< "Answered 2026-11-24: …"; empty: none
    std::string lot;     ///< its number; empty: none
    double kg = 0;       ///< 0: not said
    Day noticed_on;
    std::optional<Day> answered_on;
    bool is_open = false, is_withdrawn = false;
    std::string changed; ///< by another station, not looked at here yet: "04:12, Ines"
};

struct MillDifference {
    OwnBesideCertificate row;
    std::string words;
};

struct MillRecordModel {
    MillRecordQuery query;
    std::string mill;
    int lots = 0;
    double kg = 0;
    std::vector<MillFlour> flours; ///< those that came in the span, in the order of the plant
    int tested = 0;                ///< lots that the plant tested by itself, whenever
    std::string plan;              ///< of own tests: "switching rules"
    std::string plan_source;       ///< "ISO 2859-1, from memory"; empty: none
    std::vector<MillDifference> differences;
    MillPunctuality days;
    int held = 0, rejected = 0;
    std::vector<MillReturnRow> returns;
    double returned_kg = 0;
    std::vector<ComplaintRow> complaints; ///< open ones first, whenever they were noticed; then the newest
    int open = 0, answered = 0;           ///< complaints; of these the withdrawn ones are none
    MillLotsPage page;
    std::vector<std::string> rules; ///< by what lots, tests and days were counted, in words
};

struct Station;

MillRecordModel make_mill_record(const Station& station, const MillRecordQuery& query);

} // namespace mellowbin::app
