#pragma once

#include "app/acts/act.h"
#include "core/result.h"

#include <memory>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

namespace mellowbin::app {

/// A thing that a person does, as a value: any struct with a carry_out() beside it. A view appends one, the
/// command line makes one; App::handle carries it out and says what came of it. Ids in it are the book's;
/// what people typed is text until it has been read. Copies share the act, which never changes.
class Intent {
public:
    template <class Act, class = std::enable_if_t<!std::is_same_v<Act, Intent>>>
    Intent(Act act) : act_(std::make_shared<const Held<Act>>(std::move(act))) {}

    /// The act, where it is of this kind; else null.
    template <class Act> [[nodiscard]] const Act* as() const {
        const auto* held = dynamic_cast<const Held<Act>*>(act_.get());
        return held ? &held->act : nullptr;
    }

    /// Carries the act out: what came of it, or every reason why not. Throws BookError when the world fails.
    /// (No carry_out() of an Intent: an act that lacks its own would find that one, and itself in it.)
    [[nodiscard]] Result<Told> happen(State& state) const;

private:
    struct Any;
    template <class Act> struct Held;
    std::shared_ptr<const Any> act_;
};
using Intents = std::vector<Intent>;

/// What an accepted intent changed of what is looked at; what it wrote to the book, the journal tells. Only
/// the read-models that are touched are made anew.
enum class Touched : unsigned {
    nothing = 0,
    opened_lot = 1,
    opened_run = 2,
    as_of = 4,
    plan_span = 8,
    comparison = 16, ///< what was learned, beside what could be
    past_lots = 32,
    past_journal = 64,
    found = 128,         ///< by a search: what a person may choose from
    plant_records = 256, ///< the plant's records, as they are listed
    mill_record = 512,
    traced = 1024, ///< the screen Trace: what is traced, dispatches, drills
};
constexpr Touched operator|(Touched a, Touched b) {
    return static_cast<Touched>(static_cast<unsigned>(a) | static_cast<unsigned>(b));
}
constexpr bool has(Touched all, Touched one) {
    return (static_cast<unsigned>(all) & static_cast<unsigned>(one)) != 0;
}

/// What an accepted intent has to say.
struct Told {
    std::string words;
    Touched touched = Touched::nothing;
    std::string undo = {};
    Intents undoing = {};
    std::string screen = {};
    std::string document = {}; ///< a file that was written to be looked at
};

struct Intent::Any {
    Any() = default;
    Any(const Any&) = delete;
    Any& operator=(const Any&) = delete;
    virtual ~Any();
    virtual Result<Told> carry_out_in(State& state) const = 0;
};

template <class Act> struct Intent::Held final : Any {
    explicit Held(Act one) : act(std::move(one)) {}
    Result<Told> carry_out_in(State& state) const override { return carry_out(state, act); }
    Act act;
};

} // namespace mellowbin::app
