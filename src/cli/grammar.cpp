#include "cli/grammar.h"

#include <CLI/CLI.hpp>

namespace mellowbin::cli {

Word& Word::required(bool is_required) {
    option_->required(is_required);
    return *this;
}
Word& Word::within(int low, int high) {
    option_->check(CLI::Range(low, high));
    return *this;
}
Word& Word::within(std::int64_t low, std::int64_t high) {
    option_->check(CLI::Range(low, high));
    return *this;
}
Word& Word::within(double low, double high) {
    option_->check(CLI::Range(low, high));
    return *this;
}
Word& Word::excludes(const Word& other) {
    option_->excludes(other.option_);
    return *this;
}
Word& Word::one_at_a_time() {
    option_->allow_extra_args(false);
    return *this;
}
Word& Word::otherwise(const char* value) {
    option_->default_val(value);
    return *this;
}
Word& Word::shown_as(const std::string& words) {
    option_->option_text(words);
    return *this;
}

Word Words::option(const char* name, std::string& into, const char* what) {
    return Word(*command_->add_option(name, into, what));
}
Word Words::option(const char* name, int& into, const char* what) {
    return Word(*command_->add_option(name, into, what));
}
Word Words::option(const char* name, std::int64_t& into, const char* what) {
    return Word(*command_->add_option(name, into, what));
}
Word Words::option(const char* name, std::uint64_t& into, const char* what) {
    return Word(*command_->add_option(name, into, what));
}
Word Words::option(const char* name, double& into, const char* what) {
    return Word(*command_->add_option(name, into, what));
}
Word Words::option(const char* name, std::vector<std::string>& into, const char* what) {
    return Word(*command_->add_option(name, into, what));
}
Word Words::flag(const char* name, bool& into, const char* what) {
    return Word(*command_->add_flag(name, into, what));
}
void Words::footer(const char* words) { command_->footer(words); }
void Words::needs(std::function<bool()> is_there, const char* what) {
    command_->parse_complete_callback([is_there = std::move(is_there), what] {
        if (!is_there())
            throw CLI::RequiredError(what);
    });
}

Grammar::Grammar()
    : parser_(
          std::make_unique<CLI::App>("mellowbin: flour lots, their maturity, and the dough they go into")) {
    parser_->require_subcommand(1);
    parser_->fallthrough();
    Words general(*parser_);
    general.option("--book", general_.book, "The book's file; otherwise plant.mbook in your data folder");
    general.option("--today", general_.today, "Work as if today were this day (YYYY-MM-DD)");
    general.option("--who", general_.who, "Whose name goes into the journal; otherwise your login");
    general.flag("--json", general_.json, "JSON instead of text, for commands that show something");
    parser_->set_version_flag("--version", "mellowbin 0.1.0");
    add_window_command(*this);
    add_book_commands(*this);
    add_lot_commands(*this);
    add_list_commands(*this);
    add_whole_book_commands(*this);
    add_certificate_commands(*this);
    add_judgement_commands(*this);
    add_aging_commands(*this);
    add_climate_commands(*this);
    add_learning_command(*this);
    add_plan_commands(*this);
    add_print_commands(*this);
    add_replan_commands(*this);
    add_supply_commands(*this);
    add_delivery_commands(*this);
    add_mixer_commands(*this);
    add_dough_commands(*this);
    add_ingredient_commands(*this);
    add_mill_commands(*this);
    add_stock_commands(*this);
    add_trace_commands(*this);
    add_setting_commands(*this);
    add_scanner_commands(*this);
    add_precision_commands(*this);
}

Grammar::~Grammar() = default;

Words Grammar::command(const char* name, const char* what, Act act) {
    auto* command = parser_->add_subcommand(name, what);
    command->callback([this, act = std::move(act)] { chosen_ = act; });
    return Words(*command);
}

std::optional<int> Grammar::parse(const std::vector<std::string>& words, std::ostream& out,
                                  std::ostream& err) {
    std::vector<std::string> reversed(words.rbegin(), words.rend()); // as CLI11 wants them
    try {
        parser_->parse(reversed);
    } catch (const CLI::ParseError& error) {
        return parser_->exit(error, out, err) == 0 ? done : bad_usage;
    }
    return {};
}

} // namespace mellowbin::cli
