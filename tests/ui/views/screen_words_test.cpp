#include "support/catch.h"
#include "support/fixture_file.h"
#include "ui/views/screen_states.h"

#include <algorithm>
#include <cstdlib>
#include <fstream>

using namespace mellowbin;

namespace {

/// "intake, a file read" -> fixtures/screens/intake_a_file_read.txt
std::filesystem::path file_of(std::string name) {
    std::erase(name, ',');
    std::replace(name.begin(), name.end(), ' ', '_');
    return std::filesystem::path(MELLOWBIN_FIXTURES) / "screens" / (name + ".txt");
}

} // namespace

/// The words of some screens in reading order, to be read in review as text. After a wanted change, set
/// MELLOWBIN_UPDATE_SCREENS=1 and run once; the difference shows what a person will now read.
TEST_CASE("The screens say the words that were agreed") {
    const bool updates = std::getenv("MELLOWBIN_UPDATE_SCREENS") != nullptr;
    const std::vector<std::string> agreed{"intake, empty",
                                          "intake, refused",
                                          "lots, filled",
                                          "lots, opened",
                                          "lots, moving refused",
                                          "readiness, filled",
                                          "readiness, opened",
                                          "readiness, retest refused",
                                          "lots, a loaf to be logged",
                                          "mixer, poured",
                                          "mixer, solution past",
                                          "mixer, wrong bag",
                                          "mixer, something else refused",
                                          "mixer, what came of it refused",
                                          "mixer, logged",
                                          "mixer, levers",
                                          "mixer, keeping",
                                          "plan, full",
                                          "plan, a run chosen",
                                          "plan, compared",
                                          "plan, what if",
                                          "plan, flour to come",
                                          "plant, flour",
                                          "plant, product",
                                          "plant, mill record",
                                          "trace, filled",
                                          "trace, dispatches",
                                          "trace, silos",
                                          "trace, stock",
                                          "settings, limits",
                                          "settings, confirming",
                                          "settings, storage",
                                          "settings, learned",
                                          "settings, scanner judged",
                                          "intake, no label"};
    for (const auto& state : test::all_screen_states()) {
        if (std::find(agreed.begin(), agreed.end(), state.name) == agreed.end())
            continue;
        DYNAMIC_SECTION(state.name) {
            test::WholeWindow window(state.screen);
            state.begin(window);
            window.screen.settle();
            const auto words = window.screen.words();
            if (updates)
                std::ofstream(file_of(state.name)) << words;
            CHECK(words == testing::file_bytes(file_of(state.name)));
        }
    }
}
