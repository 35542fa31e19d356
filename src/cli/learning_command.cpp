#include "app/acts/learning.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/settings.h"
#include "cli/aging_as_json.h"
#include "cli/aging_as_text.h"
#include "cli/grammar.h"

#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

struct LearnedTyped {
    bool adopt = false, published = false;
};

int show_learned(Session& session, const LearnedTyped& typed) {
    App app(session.set_up());
    if (typed.adopt)
        app.handle(AdoptLearned{});
    if (typed.published)
        app.handle(RestoreLearned{});
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    app.handle(CompareLearned{});
    if (session.wants_json())
        session.out() << learned_as_json(app.settings().learning);
    else
        print_learned(session.out(), app.settings().learning);
    return done;
}

} // namespace

void add_learning_command(Grammar& grammar) {
    auto [words, typed] = grammar.command(
        "learned", "Show what the plant's retests teach beside what is published", show_learned);
    const auto adopt = words.flag("--adopt", typed.adopt, "The plant's own figures hold from now on");
    words.flag("--published", typed.published, "The published figures hold again").excludes(adopt);
}

} // namespace mellowbin::cli
