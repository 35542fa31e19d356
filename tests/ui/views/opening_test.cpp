#include "support/catch.h"
#include "support/screen.h"
#include "ui/views/opening.h"

using namespace mellowbin;

TEST_CASE(
    "While an older book is brought to its present form the window says what is done, and how far it is") {
    testing::Screen screen([] { views::draw_opening("copying it first", 0.374); });
    screen.settle();
    CHECK(screen.says("being brought to its present form"));
    CHECK(screen.says("about 37 %"));
    CHECK(screen.says("A copy of the book as it was is kept beside it"));
}
