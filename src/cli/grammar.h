#pragma once

#include "cli/session.h"

#include <CLI/CLI.hpp>

#include <functional>
#include <memory>

namespace mellowbin::cli {

/// Carries out the command that was typed; the exit code.
using Act = std::function<int(Session&)>;

/// A command's own options, and where what is typed for them goes.
template <class Typed> struct Command {
    CLI::App& words;
    Typed& typed;
};

/// The grammar of the command line. Commands are added to it by topic; parsing chooses one.
class Grammar {
public:
    Grammar();

    CLI::App& command(const char* name, const char* what, Act act);
    /// A command with options of its own, which `act` is given.
    template <class Typed>
    Command<Typed> command(const char* name, const char* what, int (*act)(Session&, const Typed&)) {
        auto typed = std::make_shared<Typed>();
        CLI::App& words =
            command(name, what, Act([typed, act](Session& session) { return act(session, *typed); }));
        return {words, *typed};
    }

    CLI::App& parser() { return parser_; }
    [[nodiscard]] const General& general() const { return general_; }
    [[nodiscard]] const Act& chosen() const { return chosen_; }

private:
    General general_;
    CLI::App parser_;
    Act chosen_;
};

// The commands, by topic.
void add_window_command(Grammar& grammar);
void add_book_commands(Grammar& grammar);
void add_lot_commands(Grammar& grammar);
void add_aging_commands(Grammar& grammar);
void add_climate_commands(Grammar& grammar);
void add_learning_command(Grammar& grammar);
void add_plan_commands(Grammar& grammar);
void add_replan_commands(Grammar& grammar);
void add_supply_commands(Grammar& grammar);
void add_mixer_commands(Grammar& grammar);
void add_dough_commands(Grammar& grammar);
void add_setting_commands(Grammar& grammar);

} // namespace mellowbin::cli
