#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/card.h"
#include "app/models/mixer.h"
#include "cli/as_json.h"
#include "cli/as_text.h"
#include "cli/grammar.h"

#include <fmt/format.h>

#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

RunId run_of(const App& app, const std::string& code) {
    const auto run = app.run_of_code(code);
    if (!run)
        throw Failed{fmt::format("Run: \"{}\" is not in the book; see mellowbin plan", code)};
    return *run;
}

struct CardTyped {
    std::string run;
    bool today_all = false;
};

void print_cards(std::ostream& out, const std::vector<CardModel>& cards) {
    if (cards.empty())
        out << "No runs today.\n";
    for (const auto& card : cards) {
        print_card(out, card);
        out << '\n';
    }
}

int show_cards(Session& session, const CardTyped& typed) {
    App app(session.set_up());
    std::vector<CardModel> cards;
    if (typed.today_all)
        for (const auto& run : app.mixer().runs)
            cards.push_back(app.card_of(run.run));
    else
        cards.push_back(app.card_of(run_of(app, typed.run)));
    if (session.wants_json())
        session.out() << cards_as_json(cards);
    else
        print_cards(session.out(), cards);
    const bool is_refused = !typed.today_all && !cards.front().refusals.empty();
    return is_refused ? not_done : done;
}

} // namespace

void add_mixer_commands(Grammar& grammar) {
    auto card = grammar.command("card", "The mixer's card of a run", show_cards);
    auto code = card.words.option("run", card.typed.run, "The run's code, as on the plan");
    const auto all = card.words.flag("--today-all", card.typed.today_all, "The cards of all runs of today");
    code.excludes(all);
    card.words.needs([&typed = card.typed] { return !typed.run.empty() || typed.today_all; },
                     "a run's code, or --today-all,");
}

} // namespace mellowbin::cli
