#include "a_bakery.h"
#include "support/catch.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

TEST_CASE("A whole book goes out as JSON and comes back as another book, which shows the same lots") {
    ABakery bakery;
    const auto file = bakery.terminal.file("book.json");
    CHECK_THAT(bakery.done({"save-book-as-json", "--to", file}),
               Contains("The whole book is saved to " + file));
    const auto lots = bakery.done({"lots"});
    const auto made = bakery.terminal.file("made.mbook");
    REQUIRE(bakery.terminal.type({"read-book-from-json", file, "--book", made}) == 0);
    REQUIRE(bakery.terminal.type({"lots", "--book", made, "--today", "2026-11-25"}) == 0);
    CHECK(bakery.terminal.out == lots);
    CHECK(bakery.terminal.type({"read-book-from-json", file, "--book", made}) == 1);
    CHECK_THAT(bakery.terminal.err, Contains("is already there"));
    CHECK_THAT(bakery.refused({"save-book-as-json", "--to", bakery.terminal.book()}),
               Contains("is the book itself"));
}
