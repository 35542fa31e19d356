#include "print/page.h"
#include "support/catch.h"
#include "support/refusal_words.h"

using namespace mellowbin;
using namespace mellowbin::print;

TEST_CASE("Paper is known by its name or by a label's size, and the print system's words follow") {
    const auto media = [](const char* typed) { return media_of(*read_page_size(typed, a4)); };
    CHECK(media("") == "A4");
    CHECK(media(" Letter ") == "Letter");
    CHECK(media("105x148") == "Custom.105x148mm");
    CHECK(*read_page_size("105X148", a4) == PageSize{105, 148});
    CHECK(media_of(across(a4)) == "A4"); // which way it lies, the page in the file says
}

TEST_CASE("What is no paper is refused with what would be one") {
    for (const char* typed :
         {"a5", "105", "105x", "x148", "10x148", "105x1480", "105x148mm", "1e2x148", "-105x148"}) {
        INFO(typed);
        const auto read = read_page_size(typed, a4);
        REQUIRE_FALSE(read);
        CHECK(read.refusals().front().field == "Paper");
        CHECK(read.refusals().front().remedy.find("105x148") != std::string::npos);
    }
}
