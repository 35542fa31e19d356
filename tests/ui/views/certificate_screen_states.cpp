#include "ui/models/certificate.h"
#include "ui/views/screen_states.h"

namespace mellowbin::test {
namespace {

using views::Screen;

void looked_at(WholeWindow& w) { w.intake.certificate = a_certificate(); }

void changing(WholeWindow& w) {
    looked_at(w);
    w.screen.settle();
    w.screens.intake.certificate.changing = "Protein (N x 5,7)";
}

void answered(WholeWindow& w) {
    looked_at(w);
    w.screen.settle();
    w.screens.intake.certificate.answers = {
        {"dates", "Which comes first, the day or the month?", "day_first", "the day"}};
    w.screens.intake.certificate.shows_every_value = true;
}

void understood(WholeWindow& w) { w.intake.certificate = an_understood_certificate(); }

void in_trouble(WholeWindow& w) {
    understood(w);
    w.intake.certificate.troubles = {{"Certificate", "no table was found in it", "Choose another file"}};
    w.intake.certificate.mill.clear();
    w.intake.certificate.notes = {"Sheet \"Old\" is hidden"};
}

void reading(WholeWindow& w) {
    w.intake.certificate.is_reading = true;
    w.intake.certificate.name = "harrow-2026-11.pdf";
}

void pasting(WholeWindow& w) {
    w.screens.intake.certificate.is_pasting = true;
    w.screens.intake.certificate.pasted = "Feuchtigkeit\t14,1 %\nProtein\t12,4 %";
}

void words_of_mill(WholeWindow& w) {
    w.plant.mill_words = words_of_a_mill();
    w.plant.meanings = a_certificate().meanings;
    w.screens.plant.show({PlantKind::mill, 1});
}

void word_opened(WholeWindow& w) {
    words_of_mill(w);
    const auto& word = w.plant.mill_words.front().word;
    w.screens.plant.mill_words.form.open_for(views::key_of(word),
                                             {word.means, word.unit, word.basis, word.method, ""});
}

void came_with_a_file(WholeWindow& w) {
    w.lots.opened = a_sheet();
    w.lots.opened->certificate_file = "harrow-2026-11.xlsx";
    w.lots.opened->certificate_words = "harrow-2026-11.xlsx, B3, kept 24 Nov 14:20 by Ines";
    w.screens.lots.saving.is_open = true;
}

} // namespace

std::vector<ScreenState> certificate_screen_states() {
    return {{"intake, a certificate looked at", Screen::intake, looked_at},
            {"intake, a label's meaning changed", Screen::intake, changing},
            {"intake, a question answered", Screen::intake, answered},
            {"intake, a certificate understood", Screen::intake, understood},
            {"intake, a certificate in trouble", Screen::intake, in_trouble},
            {"intake, a certificate being read", Screen::intake, reading},
            {"intake, a certificate pasted", Screen::intake, pasting},
            {"plant, a mill's words", Screen::plant, words_of_mill},
            {"plant, a mill's word opened", Screen::plant, word_opened},
            {"lots, a certificate's file to save", Screen::lots, came_with_a_file}};
}

} // namespace mellowbin::test
