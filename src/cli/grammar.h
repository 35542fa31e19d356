#pragma once

#include "cli/session.h"

#include <cstdint>
#include <functional>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <vector>

// Named here and seen in grammar.cpp alone: the parser's header costs seconds in every source that reads it.
namespace CLI {
class App;
class Option;
} // namespace CLI

namespace mellowbin::cli {

/// Carries out the command that was typed; the exit code.
using Act = std::function<int(Session&)>;

/// An option, a flag or a bare word of a command. It lives as long as the grammar.
class Word {
public:
    explicit Word(CLI::Option& option) : option_(&option) {}

    Word& required(bool is_required = true);
    /// A number from `low` to `high`; another is refused as a fault of usage.
    Word& within(int low, int high);
    Word& within(std::int64_t low, std::int64_t high);
    Word& within(double low, double high);
    Word& excludes(const Word& other);
    /// One value each time it is given.
    Word& one_at_a_time();
    Word& otherwise(const char* value);
    /// What the help shows as its value.
    Word& shown_as(const std::string& words);

private:
    CLI::Option* option_;
};

/// What may be typed behind a command: "--name" is an option, "name" a bare word. What is typed goes into the
/// variable given, which must live as long as the grammar.
class Words {
public:
    explicit Words(CLI::App& command) : command_(&command) {}

    Word option(const char* name, std::string& into, const char* what = "");
    Word option(const char* name, int& into, const char* what = "");
    Word option(const char* name, std::int64_t& into, const char* what = "");
    Word option(const char* name, std::uint64_t& into, const char* what = "");
    Word option(const char* name, double& into, const char* what = "");
    Word option(const char* name, std::vector<std::string>& into, const char* what = "");
    Word flag(const char* name, bool& into, const char* what = "");
    /// Words beneath the help.
    void footer(const char* words);
    /// A fault of usage unless `is_there` once all is read; `what` is missing then.
    void needs(std::function<bool()> is_there, const char* what);

private:
    CLI::App* command_;
};

/// A command's own words, and where what is typed for them goes.
template <class Typed> struct Command {
    Words words;
    Typed& typed;
};

/// The grammar of the command line. Commands are added to it by topic; parsing chooses one.
class Grammar {
public:
    Grammar();
    ~Grammar();
    Grammar(const Grammar&) = delete;
    Grammar& operator=(const Grammar&) = delete;

    Words command(const char* name, const char* what, Act act);
    /// A command with words of its own, which `act` is given.
    template <class Typed>
    Command<Typed> command(const char* name, const char* what, int (*act)(Session&, const Typed&)) {
        auto typed = std::make_shared<Typed>();
        const Words words =
            command(name, what, Act([typed, act](Session& session) { return act(session, *typed); }));
        return {words, *typed};
    }

    /// Reads what was typed, without the program's name. An exit code where that is the end of it: help was
    /// asked for, or the words are off, and the reader was told so.
    std::optional<int> parse(const std::vector<std::string>& words, std::ostream& out, std::ostream& err);
    [[nodiscard]] const General& general() const { return general_; }
    [[nodiscard]] const Act& chosen() const { return chosen_; }

private:
    General general_;
    std::unique_ptr<CLI::App> parser_;
    Act chosen_;
};

// The commands, by topic.
void add_window_command(Grammar& grammar);
void add_book_commands(Grammar& grammar);
void add_list_commands(Grammar& grammar);
void add_whole_book_commands(Grammar& grammar);
void add_lot_commands(Grammar& grammar);
void add_certificate_commands(Grammar& grammar);
void add_judgement_commands(Grammar& grammar);
void add_aging_commands(Grammar& grammar);
void add_climate_commands(Grammar& grammar);
void add_learning_command(Grammar& grammar);
void add_plan_commands(Grammar& grammar);
void add_print_commands(Grammar& grammar);
void add_replan_commands(Grammar& grammar);
void add_supply_commands(Grammar& grammar);
void add_delivery_commands(Grammar& grammar);
void add_mixer_commands(Grammar& grammar);
void add_dough_commands(Grammar& grammar);
void add_ingredient_commands(Grammar& grammar);
void add_mill_commands(Grammar& grammar);
void add_stock_commands(Grammar& grammar);
void add_trace_commands(Grammar& grammar);
void add_setting_commands(Grammar& grammar);
void add_scanner_commands(Grammar& grammar);
void add_precision_commands(Grammar& grammar);

} // namespace mellowbin::cli
