#include "app/book/clock_words.h"
#include "app/book/station.h"
#include "app/models/journal.h"
#include "db/change.h"

#include <algorithm>

namespace mellowbin::app {
namespace {

/// Judgements were once written "Lot A: Held -> Released: the reason". History stays as it is in the book and
/// is read out as a sentence.
std::string sentence_of(const JournalLine& line) {
    constexpr std::string_view arrow = " -> ";
    const auto at = line.words.find(arrow);
    const auto lot = line.words.rfind(": ", at);
    if (at == std::string::npos || lot == std::string::npos)
        return line.words;
    std::string_view verb;
    for (const auto& [key, words] : {std::pair<std::string_view, std::string_view>{"release_lot", "released"},
                                     {"hold_lot", "put on hold"},
                                     {"reject_lot", "rejected"}})
        if (line.intent == key)
            verb = words;
    if (verb.empty())
        return line.words;
    const auto reason = line.words.find(": ", at);
    return line.words.substr(0, lot) + " " + std::string(verb) +
           (reason == std::string::npos ? "" : line.words.substr(reason));
}

} // namespace

const std::vector<ActWords>& all_act_words() {
    static const std::vector<ActWords> acts{
        {"add_run", "Run added"},
        {"add_to_plant", "Added to the plant"},
        {"adopt_learned", "Learned figures adopted"},
        {"adopt_plan", "Plan adopted"},
        {"answer_complaint", "Complaint answered"},
        {"begin_drill", "Drill begun"},
        {"bring_begun_back", "Begun delivery waits again"},
        {"bring_plant_record_back", "In use again"},
        {"change_dough", "Dough changed"},
        {"change_ingredients", "Ingredients changed"},
        {"change_limit", "Limit changed"},
        {"change_mill_words", "A mill's words changed"},
        {"change_plant", "Plant changed"},
        {"change_run", "Run changed"},
        {"change_setting", "Setting changed"},
        {"clear_bags", "Wrong bag cleared"},
        {"concede_lot", "Concession given"},
        {"confirm_batch", "Batch mixed"},
        {"confirm_certificate", "Certificate kept"},
        {"confirm_limit", "Limit confirmed"},
        {"count_lot", "Lot counted"},
        {"counter_batch", "Batch taken back"},
        {"counter_dispatch", "Dispatch taken back"},
        {"counter_movement", "Movement taken back"},
        {"counter_rework", "Rework taken back"},
        {"doubt_limit", "Limit doubted"},
        {"draw_from", "Place to draw from said"},
        {"drop_run", "Run dropped"},
        {"drop_test_precision", "Test precision dropped"},
        {"end_concession", "Concession ended"},
        {"end_drill", "Drill ended"},
        {"end_expectation", "Delivery no longer expected"},
        {"end_reservation", "Reservation ended"},
        {"end_solution", "Stock solution poured away"},
        {"expect_again", "Delivery expected again"},
        {"expect_delivery", "Delivery expected"},
        {"extend_best_before", "Last day extended"},
        {"ferment_longer", "Run fermented longer"},
        {"give_back", "Flour returned"},
        {"give_lot", "Lot given to a run"},
        {"hold_concerned", "All concerned put on hold"},
        {"hold_lot", "Lot put on hold"},
        {"keep_solution", "Stock solution kept"},
        {"lock_assignment", "Lot locked to a run"},
        {"log_bake", "Test bake logged"},
        {"log_complaint", "Complaint logged"},
        {"log_dispatch", "Dispatch logged"},
        {"log_dispatches", "Dispatches logged"},
        {"log_keeping", "Keeping logged"},
        {"log_result", "Result of a batch logged"},
        {"log_retest", "Retest logged"},
        {"log_rework", "Rework logged"},
        {"make_solution", "Stock solution made"},
        {"move_lot", "Lot moved"},
        {"note_care", "Silo looked after"},
        {"put_delivery_aside", "Delivery put aside"},
        {"read_climate", "Logger's file read"},
        {"reject_lot", "Lot rejected"},
        {"release_lot", "Lot released"},
        {"remove_from_plant", "Taken off the plant"},
        {"reserve_lot", "Lot reserved"},
        {"restore_assignments", "Plan put back"},
        {"restore_concession", "Concession put back"},
        {"restore_learned", "Learned figures put back"},
        {"restore_limit", "Limit put back"},
        {"restore_test_precision", "Test precision put back"},
        {"retire_plant_record", "Retired"},
        {"return_to_mill", "Flour back to the mill"},
        {"scan_bag", "Bag scanned"},
        {"seed_law", "Limits put into the book"},
        {"set_silo_capacity", "What a silo holds said"},
        {"set_silo_zone", "Silo described"},
        {"set_test_precision", "Test precision entered"},
        {"set_up_plant", "Plant described"},
        {"take_back_answer", "Answer taken back"},
        {"take_back_extension", "Extension taken back"},
        {"take_back_hold", "Hold taken back"},
        {"take_back_return", "Return to the mill taken back"},
        {"take_in", "Lot taken in"},
        {"take_over_delivery", "Begun delivery taken over"},
        {"throw_begun_away", "Begun delivery thrown away"},
        {"unlock_assignment", "Lot unlocked from a run"},
        {"use_lot", "Lot used"},
        {"waste_lot", "Flour thrown away"},
        {"withdraw_bake", "Test bake withdrawn"},
        {"withdraw_climate", "Logger's file taken back"},
        {"withdraw_complaint", "Complaint withdrawn"},
        {"withdraw_keeping", "Keeping withdrawn"},
        {"withdraw_lots", "Lots withdrawn"},
        {"withdraw_retest", "Retest withdrawn"},
    };
    return acts;
}

std::string act_in_words(std::string_view key) {
    const auto& acts = all_act_words();
    const auto known =
        std::find_if(acts.begin(), acts.end(), [&](const ActWords& act) { return act.key == key; });
    std::string words(known == acts.end() ? key : known->words);
    if (known == acts.end())
        std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

JournalRow journal_row(const Station& s, const JournalLine& line) {
    return {line.id,
            time_in_words(s.setup.clock, line.at, s.today()),
            line.who,
            line.intent,
            line.subject,
            sentence_of(line),
            act_in_words(line.intent),
            iso(line.at)};
}

} // namespace mellowbin::app
