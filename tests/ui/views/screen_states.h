#pragma once

#include "ui/views/whole_window.h"

#include <functional>
#include <string>
#include <vector>

namespace mellowbin::test {

/// A screen in a state that a person may meet. `begin` sets what is shown before the first frame is judged.
struct ScreenState {
    std::string name; ///< "intake, refused"
    views::Screen screen;
    std::function<void(WholeWindow&)> begin;
};

/// Nothing is in the book yet.
void empty_book(WholeWindow& w);
/// As the window opens; after an act that failed; while a plan is being made.
void nothing(WholeWindow& w);
void failure(WholeWindow& w);
void busy(WholeWindow& w);

/// Those of taking in, beside certificates.
std::vector<ScreenState> intake_screen_states();
/// Those of lots and of their stories.
std::vector<ScreenState> lots_screen_states();
/// Those of the plan.
std::vector<ScreenState> plan_screen_states();
/// Those of the settings, beside what tests are held by.
std::vector<ScreenState> settings_screen_states();
/// Those of a batch, its log, levers and keeping, beside what every screen has.
std::vector<ScreenState> mixer_screen_states();
/// Those of the plant's records, checks and choices.
std::vector<ScreenState> plant_screen_states();
/// Those of certificates that are read, of a mill's words, and of a certificate's file.
std::vector<ScreenState> certificate_screen_states();
/// Those of what is known of a mill, and of whether a lot is to be tested.
std::vector<ScreenState> mill_screen_states();
/// Those of a trace.
std::vector<ScreenState> trace_screen_states();
/// Those of the assistant, and of the screens that offer it.
std::vector<ScreenState> setting_up_screen_states();
/// Those of quality's word on a lot, and of the limits that retests are held by.
std::vector<ScreenState> judgement_screen_states();
/// Every screen empty, filled, refused, failed and busy, with its dialogs.
std::vector<ScreenState> all_screen_states();

} // namespace mellowbin::test
