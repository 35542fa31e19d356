#include "cli/command_line.h"

#include "cli/grammar.h"
#include "cli/say.h"

#include <ostream>

namespace mellowbin::cli {

int run(const std::vector<std::string>& words, World& world) {
    Grammar grammar;
    if (const auto code = grammar.parse(words, world.out, world.err))
        return *code;
    try {
        Session session(grammar.general(), world);
        return grammar.chosen()(session);
    } catch (const Failed& failed) {
        say(world.err, "mellowbin: {}\n", failed.words);
    } catch (const std::exception& error) { // a BookError, too
        say(world.err, "mellowbin: {}\n", error.what());
    }
    return not_done;
}

} // namespace mellowbin::cli
