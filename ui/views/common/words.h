#pragma once

#include "app/models/lot_standing.h"
#include "app/models/outlook.h"
#include "core/counted.h"
#include "core/day.h"
#include "core/lot.h"
#include "core/result.h"
#include "core/specification.h"
#include "ui/widgets/theme.h"

#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>

/// Words and roles that several screens share.
namespace mellowbin::views {

/// Fixed decimals, or "–" where the value is missing.
std::string number_words(std::optional<double> value, int decimals);
/// YYYY-MM-DD, or "–" where the day is not known.
std::string day_words(std::optional<Day> day);
/// "1st", "2nd", "3rd", "11th"; counted from 1.
std::string ordinal(std::size_t place);

ui::Role role_of(LotState state);
/// Where it stands otherwise than its state says, that counts.
ui::Role role_of(LotState state, const app::LotStanding& standing);
ui::Role role_of(app::Readiness readiness);
ui::Role role_of(app::Advice advice);
ui::Role role_of(Verdict verdict);
std::string_view word_for(Verdict verdict);
/// The advice's word. Waiting has no sign of its role: it stands in the words, an outline as young flour is.
std::string advice_words(app::Advice advice);

/// Those refusals whose field is none of the fields on the screen: they are shown with their fields' names.
Refusals all_but(const Refusals& refusals, std::span<const std::string_view> fields);
Refusals all_but(const Refusals& refusals, std::initializer_list<std::string_view> fields);

} // namespace mellowbin::views
