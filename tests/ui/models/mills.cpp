#include "ui/models/mills.h"

#include "support/iso.h"

namespace mellowbin::test {
namespace {

app::MillFlour strong_white() {
    app::MillFlour flour;
    flour.flour = FlourId{1};
    flour.name = "Strong white";
    flour.lots = 21;
    flour.kg = 480'000;
    flour.certificate = {18, 2, 1, {{Property::protein, 20, 2}, {Property::falling_number, 20, 0}}};
    flour.own = {7, 1, 0, {{Property::protein, 8, 0}, {Property::falling_number, 8, 1}}};
    flour.testing = "tightened since W26-120: W26-118, W26-120 were out";
    return flour;
}

app::MillFlour wholemeal() {
    app::MillFlour flour;
    flour.flour = FlourId{2};
    flour.name = "Wholemeal";
    flour.lots = 3;
    flour.kg = 36'000;
    flour.certificate = {3, 0, 0, {{Property::falling_number, 3, 0}}};
    return flour;
}

app::MillLotRow lot(std::int64_t number, const char* code, const char* day, std::optional<int> late) {
    app::MillLotRow row;
    row.id = LotId{number};
    row.code = code;
    row.flour = "Strong white";
    row.state = LotState::released;
    row.delivered_on = day_from_iso(day);
    row.kg = 24'000;
    row.days_late = late;
    row.values = {{12.1, {}, true, false, false}, {318, 305, true, false, false}};
    return row;
}

std::vector<app::ComplaintRow> complaints() {
    app::ComplaintRow open;
    open.id = ComplaintId{7};
    open.about = "Protein";
    open.lot = "W26-118";
    open.words = "Protein, lot W26-118, 24000 kg: lower than ordered";
    open.noticed = "Noticed 2026-11-12 · Ines";
    open.noticed_on = day_from_iso("2026-11-12");
    open.is_open = true;
    open.changed = "04:12, Tomas";
    app::ComplaintRow answered;
    answered.id = ComplaintId{4};
    answered.about = "Bags";
    answered.words = "Bags: torn at the seam";
    answered.noticed = "Noticed 2026-06-03 · Tomas";
    answered.noticed_on = day_from_iso("2026-06-03");
    answered.answer = "Answered 2026-06-10: another yarn from July on · Ines";
    answered.answered_on = day_from_iso("2026-06-10");
    app::ComplaintRow withdrawn = answered;
    withdrawn.id = ComplaintId{3};
    withdrawn.words = "Weight: 40 kg less than on the note";
    withdrawn.answer.clear();
    withdrawn.answered_on.reset();
    withdrawn.is_withdrawn = true;
    return {open, answered, withdrawn};
}

app::MillDifference difference(Property property, int lots, double mean, double spread, double error,
                               std::optional<bool> differs) {
    OwnBesideCertificate row;
    row.property = property;
    row.lots = lots;
    row.mean = mean;
    row.spread = spread;
    row.standard_error = error;
    row.differs = differs;
    row.other_method = lots > 5 ? 2 : 0;
    return {row, in_words(row)};
}

} // namespace

app::MillRecordModel a_mill_record() {
    app::MillRecordModel m;
    m.query = {MillId{1}, day_from_iso("2025-11-25"), day_from_iso("2026-11-25"), 1};
    m.mill = "Harrow Mill";
    m.lots = 24;
    m.kg = 516'000;
    m.flours = {strong_white(), wholemeal()};
    m.tested = 8;
    m.plan = "switching rules";
    m.plan_source = "ISO 2859-1, from memory";
    m.differences = {difference(Property::protein, 8, -0.31, 0.17, 0.06, true),
                     difference(Property::falling_number, 3, 4, 12.5, 7.2, {})};
    m.days = {9, 2, 4, {"E-14: 24000 kg Strong white, expected on 2026-11-20"}};
    m.held = 2;
    m.rejected = 1;
    m.returns = {{"W26-118", 12'000, "protein far below", "R-7", "2026-11-14", "Ines"}};
    m.returned_kg = 12'000;
    m.complaints = complaints();
    m.open = m.answered = 1;
    m.page.properties = {Property::protein, Property::falling_number};
    m.page.rows = {lot(401, "W26-040", "2026-03-12", 0), lot(402, "W26-038", "2026-03-05", 4),
                   lot(403, "W26-031", "2026-02-26", {}), lot(404, "W26-025", "2026-02-19", -1)};
    m.page.rows[1].values[0] = {11.2, {}, true, true, false};
    m.page.rows[2].values[1] = {{}, {}, true, false, false};
    m.page.rows[3].state = LotState::rejected;
    m.page.rows[1].was_held = true;
    m.page.page = 1;
    m.page.pages = 2;
    m.page.first = 21;
    m.page.all = 24;
    m.rules = {"Against the specification as the plant has it today.",
               "On time is a delivery that came on the day it was expected, or before."};
    return m;
}

} // namespace mellowbin::test
