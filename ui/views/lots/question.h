#pragma once

#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "ui/views/common/form.h"

#include <optional>
#include <string>

namespace mellowbin::views {

/// What is asked before something is done to a lot. Stays open, with what was typed, until it is done or
/// given up.
struct LotQuestion {
    enum class Deed {
        release,
        hold,
        reject,
        extend,
        move,
        count,
        waste,
        give_back,
        take_back,
        judge_anew,     ///< a released lot's concession
        end_concession, ///< it goes into all dough
        to_mill,
    };
    Deed deed{};
    LotId lot;
    std::string code;
    LotState state{};
    PlaceId place; ///< of a move, count or waste
    std::string place_name;
    std::string booked;  ///< kg that the book has at the place, in words
    MovementId movement; ///< to take back
    std::string movement_words;

    std::string kg, reason, until; ///< as typed
    PlaceId to;
    std::optional<RunId> run; ///< whose flour comes back
    bool with_concession = false;
    ConcessionDraft concession; ///< as typed
    ConcessionDraft first;      ///< what that began with
    std::string document;       ///< that flour goes back to the mill with
    Asked asked;
};

/// Draws the question over the screen, and appends what it was about when the person says so.
void draw(std::optional<LotQuestion>& question, const app::LotsModel& model, Day today,
          const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
