#include "cli/grammar.h"

namespace mellowbin::cli {

Grammar::Grammar() : parser_("mellowbin: flour lots, their maturity, and the dough they go into") {
    parser_.require_subcommand(1);
    parser_.fallthrough();
    parser_.add_option("--book", general_.book, "The book's file; otherwise plant.mbook in your data folder");
    parser_.add_option("--today", general_.today, "Work as if today were this day (YYYY-MM-DD)");
    parser_.add_option("--who", general_.who, "Whose name goes into the journal; otherwise your login");
    parser_.add_flag("--json", general_.json, "JSON instead of text, for commands that show something");
    parser_.set_version_flag("--version", "mellowbin 0.1.0");
    add_window_command(*this);
    add_book_commands(*this);
    add_lot_commands(*this);
    add_aging_commands(*this);
    add_climate_commands(*this);
    add_learning_command(*this);
    add_plan_commands(*this);
    add_replan_commands(*this);
    add_supply_commands(*this);
    add_mixer_commands(*this);
    add_dough_commands(*this);
    add_setting_commands(*this);
}

CLI::App& Grammar::command(const char* name, const char* what, Act act) {
    auto* words = parser_.add_subcommand(name, what);
    words->callback([this, act = std::move(act)] { chosen_ = act; });
    return *words;
}

} // namespace mellowbin::cli
