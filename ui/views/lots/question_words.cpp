#include "ui/views/lots/question_words.h"

#include <fmt/format.h>

namespace mellowbin::views {

using Deed = LotQuestion::Deed;
using ui::ButtonKind;

QuestionWords words_for(const LotQuestion& q) {
    switch (q.deed) {
    case Deed::release:
        return {fmt::format("Release lot {}?", q.code), "Not yet", "Release lot"};
    case Deed::hold:
        return {fmt::format("Hold lot {}?", q.code), "Leave it", "Put on hold", ButtonKind::stop};
    case Deed::reject:
        return {fmt::format("Reject lot {}?", q.code), "Keep lot", "Reject lot", ButtonKind::stop};
    case Deed::extend:
        return {fmt::format("How long may lot {} be used?", q.code), "Leave it", "Extend"};
    case Deed::give_back:
        return {fmt::format("How much of {} comes back?", q.code), "Nothing", "Bring back"};
    case Deed::move:
        return {fmt::format("Move {} from {}?", q.code, q.place_name), "Leave it there", "Move"};
    case Deed::count:
        return {fmt::format("How much of {} lies in {}?", q.code, q.place_name), "Do not count",
                "Enter the count"};
    case Deed::waste:
        return {fmt::format("Write off some of {} in {}?", q.code, q.place_name), "Keep it", "Write off",
                ButtonKind::stop};
    case Deed::take_back:
        return {"Take this movement back?", "Leave it", "Take back", ButtonKind::stop};
    case Deed::judge_anew:
        return {fmt::format("Judge the concession of lot {} anew?", q.code), "Leave it", "Judge anew"};
    case Deed::end_concession:
        return {fmt::format("Release lot {} for all dough?", q.code), "Leave it", "End the concession"};
    case Deed::to_mill:
        return {fmt::format("Send lot {} back to the mill?", q.code), "Keep it", "Send back",
                ButtonKind::stop};
    }
    return {};
}

std::string_view what_it_means(const LotQuestion& q) {
    switch (q.deed) {
    case Deed::release:
        return "A released lot may go into dough.";
    case Deed::hold:
        return "A lot on hold does not go into dough, and the plan leaves it out, until someone releases it.";
    case Deed::reject:
        return "A rejected lot does not go into dough. The flour stays in the book until it is moved or "
               "written off.";
    case Deed::extend:
        return "Quality's word counts instead of the day printed: for the plan, and at the bowl.";
    case Deed::give_back:
        return "Flour that was taken out for a run and not mixed. It lies in a place again and can be used.";
    case Deed::take_back:
        return "A second line takes the kilograms back; both stay in the book.";
    case Deed::judge_anew:
        return "It goes only into the products that are chosen, and until the day. What was conceded before "
               "stays in its history.";
    case Deed::end_concession:
        return "It goes into all dough then, without a last day of the concession.";
    case Deed::to_mill:
        return "The flour leaves the stock and is no waste. When nothing is left, the lot is returned to the "
               "mill.";
    default:
        return "";
    }
}

} // namespace mellowbin::views
