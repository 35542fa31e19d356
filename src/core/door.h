#pragma once

#include "core/lot.h"

#include <functional>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What is looked at and asked before a delivery comes in.
namespace mellowbin {

/// A check at the door as typed.
struct DoorCheckDraft {
    std::string question; ///< or the beginning of one
    std::string answer;   ///< "yes", "no", "not looked at"; empty: not looked at
    std::string bags;     ///< how many it is about; empty: all, or none said
    std::string note;
    std::string lot =
        {}; ///< number of the one lot that it is about; empty: every lot that has none of its own
};

/// What every refusal of a check begins with: "At the door: Bags dry: Bags".
inline constexpr std::string_view at_the_door = "At the door";
/// The field of a check: "At the door: Bags dry", "At the door: Bags dry, lot W24-118: Bags".
std::string door_field(std::string_view question, std::string_view lot = {}, std::string_view part = {});

/// The checks of a delivery's lots, by their numbers.
using DoorOfLots = std::map<std::string, std::vector<DoorCheck>, std::less<>>;

/// For each lot all questions with what was answered to them: of the lot alone where a check names it, else
/// of the whole delivery, else not looked at; no checks where none was typed. Every reason at once: a
/// question that is none of those asked or stands twice, an answer that is none, a lot that is not of the
/// delivery, bags that are no whole number, bags or a note of a check that nobody answered.
Result<DoorOfLots> accept(std::span<const DoorCheckDraft> drafts, std::span<const std::string> questions,
                          std::span<const std::string> lots);

/// "Bags dry: no, 3 bags, wet at one corner"
std::string in_words(const DoorCheck& check);
/// "At the door: Bags dry: no, 3 bags, wet at one corner; 3 yes; 1 not looked at"; empty without checks.
std::string in_words(const std::vector<DoorCheck>& checks);
/// Gives the lot its checks: a "no" holds it, with the reason in words.
void check_at_door(Lot& lot, std::vector<DoorCheck> checks);

/// The field that asks why a lot is taken in although something stands against it.
inline constexpr std::string_view accept_field = "Why take it in all the same";

/// What a person must decide before the lot comes in, each at its field: a best-before day that is over,
/// moisture over the flour's specification, a certificate older than the milling, flour delivered warm.
Refusals what_stands_against(const Lot& lot, const IntakeContext& context);

} // namespace mellowbin
