#include "app/acts/begun.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "db/begun_store.h"
#include "exchange/kept_file.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

std::string how_far(const State& state, BegunId id) {
    const auto begun = BegunStore(*state.connection).find(id);
    return begun ? begun->how_far : "?";
}

} // namespace

Result<Told> carry_out(State& state, const PutDeliveryAside& intent) {
    if (intent.text.is_empty() || intent.how_far.empty())
        return Refusal{"Delivery", "has nothing typed yet", "Begin with its mill or a lot"};
    BegunDelivery delivery;
    delivery.station = state.setup.station;
    delivery.how_far = intent.how_far;
    delivery.text_form = exchange::kept_form;
    delivery.text = intent.text;
    const auto words = fmt::format("Delivery put aside: {}", intent.how_far);
    Change change = state.change("put_delivery_aside", "delivery", words);
    const auto id = BegunStore(*state.connection).put_aside(change, delivery, intent.from);
    if (!id)
        return change.refuse(id.refusals());
    change.journal_line().subject = subject_of(*id).words;
    change.journal_line().about = subject_of(*id).record;
    change.commit();
    ++state.intake.put_aside;
    return Told{words, Touched::nothing, "Undo: go on with it", {TakeOverDelivery{*id}}};
}

Result<Told> carry_out(State& state, const TakeOverDelivery& intent) {
    const BegunStore store(*state.connection);
    const auto begun = store.find(intent.delivery);
    if (begun && begun->text_form != exchange::kept_form)
        return Refusal{"Begun delivery", "was typed in another version of this program",
                       "Go on with it at a station of that version"};
    const auto words = begun
                           ? fmt::format("Delivery that {} began taken over: {}", begun->who, begun->how_far)
                           : std::string();
    Change change = state.change("take_over_delivery", subject_of(intent.delivery), words);
    const BegunHolder holder{state.setup.person, state.setup.station, state.setup.clock.now()};
    const auto hold = BegunStore(*state.connection).take_over(change, intent.delivery, holder, intent.from);
    if (!hold)
        return change.refuse(hold.refusals());
    change.commit();
    auto& taken = state.intake.taken_over;
    taken = {taken.count + 1, *hold, begun->text};
    return Told{words, Touched::nothing, "", {}, "Intake"};
}

Result<Told> carry_out(State& state, const ThrowBegunAway& intent) {
    const BegunId id = intent.delivery.delivery;
    const auto words = fmt::format("Begun delivery thrown away: {}", how_far(state, id));
    Change change = state.change("throw_begun_away", subject_of(id), words);
    if (const auto done = BegunStore(*state.connection).throw_away(change, intent.delivery); !done)
        return change.refuse(done.refusals());
    change.commit();
    return Told{words, Touched::nothing, "Undo: keep it", {BringBegunBack{id}}};
}

Result<Told> carry_out(State& state, const BringBegunBack& intent) {
    const auto words = fmt::format("Begun delivery waits again: {}", how_far(state, intent.delivery));
    Change change = state.change("bring_begun_back", subject_of(intent.delivery), words);
    if (const auto done = BegunStore(*state.connection).bring_back(change, intent.delivery); !done)
        return change.refuse(done.refusals());
    change.commit();
    return Told{words};
}

} // namespace mellowbin::app
