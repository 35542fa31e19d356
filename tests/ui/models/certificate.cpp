#include "ui/models/certificate.h"

namespace mellowbin::test {
namespace {

using namespace app;

std::vector<MeaningChoice> some_meanings() {
    return {{"left_out", "Left out", {}, false, false, false},
            {"lot_number", "Lot number", {}, false, false, false},
            {"moisture", "Moisture", {"%", "g/kg"}, true, true, false},
            {"protein", "Protein", {"%", "g/kg"}, true, true, true},
            {"wet_gluten", "Wet gluten", {"%", "g/kg"}, true, true, false},
            {"falling_number", "Falling number", {"s", "min"}, false, true, false}};
}

CertificateLabel label(const char* where, const char* shown, const char* text, const char* means,
                       const char* name, const char* value, const char* unit) {
    CertificateLabel made;
    made.key = shown;
    made.where = where;
    made.shown = shown;
    made.text = text;
    made.line = std::string(shown) + " " + text;
    made.means = means;
    made.name = name;
    made.value = value;
    made.unit = unit;
    made.said = {shown, means, "", "", "", ""};
    return made;
}

CertificateRow row_of(const CertificateLabel& label, std::size_t lot) {
    CertificateRow row;
    row.lot = lot;
    row.where = label.where;
    row.shown = label.shown;
    row.text = label.text;
    row.line = label.line;
    row.name = label.name;
    row.value = label.value;
    row.unit = label.unit;
    row.basis = label.basis;
    row.method = label.method;
    return row;
}

} // namespace

CertificateModel an_understood_certificate() {
    CertificateModel m;
    m.is_open = true;
    m.opened = m.made = 1;
    m.name = "harrow-2026-11.xlsx";
    m.mill = "Harrow Mill";
    m.meanings = some_meanings();
    m.labels = {label("B3", "Charge", "W26-150", "lot_number", "Lot number", "W26-150", ""),
                label("B6", "Feuchtigkeit", "14,1 %", "moisture", "Moisture", "14.1", "%"),
                label("B8", "Fallzahl", "5,3 min", "falling_number", "Falling number", "318", "s")};
    m.labels[1].basis = "as is";
    m.labels[1].is_learned = true;
    m.labels[2].method = "ICC 107/1";
    m.labels[2].note = "min taken by 60";
    for (const auto& one : m.labels)
        m.rows.push_back(row_of(one, 0));
    m.lots = {{"B3", "W26-150", "2 figures, 12000 kg", {}, 0}};
    m.good = 1;
    m.to_learn = 3;
    return m;
}

CertificateModel a_certificate() {
    auto m = an_understood_certificate();
    m.labels.push_back(label("B7", "Protein (N x 5,7)", "12,4 %", "protein", "Protein", "", "%"));
    m.labels.back().nitrogen_factor = "5.7";
    m.labels.back().asked = {0};
    m.labels.back().more = 1;
    m.labels.push_back(label("B9", "Farbe", "weiß", "", "", "", ""));
    m.labels.back().is_left_out = true;
    m.labels.back().note = "no figure or fact of a lot is called so";
    m.asked = {{"basis:protein",
                "Protein (N x 5,7)",
                "basis",
                "B7",
                "12,4 %",
                "At which moisture basis is the protein?",
                2,
                {{"as is", "as is"}, {"14 %", "14 % moisture"}, {"dm", "dry matter"}}}};
    for (std::size_t lot = 0; lot < 2; ++lot)
        for (const auto& one : m.labels)
            m.rows.push_back(row_of(one, lot));
    m.lots = {{"B3", "W26-150", "At which moisture basis is the protein?", {}, 1},
              {"C3",
               "W26-151",
               "C8, Falling number: a formula without a result",
               {{"C8, Falling number", "a formula without a result was read", "Save the file anew"}},
               1}};
    m.good = 0;
    return m;
}

std::vector<MillWordRow> words_of_a_mill() {
    MillWord gluten;
    gluten.mill = MillId{1};
    gluten.kind = MillWordKind::label;
    gluten.word = "feuchtkleber";
    gluten.shown = "Feuchtkleber";
    gluten.means = "wet_gluten";
    gluten.basis = "14 % moisture";
    gluten.method = "ICC 155";
    gluten.who = "Ines";
    auto colour = gluten;
    colour.word = "farbe";
    colour.shown = "Farbe";
    colour.means = "left_out";
    colour.basis = colour.method = "";
    auto days = colour;
    days.kind = MillWordKind::dates;
    days.word = days.shown = "";
    days.means = "day_first";
    return {{gluten, "Feuchtkleber", "Wet gluten", "24 Nov 14:20, Ines"},
            {colour, "Farbe", "Left out", "24 Nov 14:20, Ines"},
            {days, "Days", "the day before the month", "24 Nov 14:20, Ines"}};
}

} // namespace mellowbin::test
