#include "exchange/dispatch_file.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::exchange;
using Catch::Matchers::Contains;

namespace {

std::string refused(std::string_view bytes) {
    const auto read = read_dispatches(bytes);
    if (read)
        return {};
    std::string words;
    for (const auto& refusal : read.refusals())
        words += in_words(refusal) + "\n";
    return words;
}

} // namespace

TEST_CASE("Dispatches are read by the heads of their columns, in any order, with the line each stands in") {
    const auto read =
        read_dispatches("\xEF\xBB\xBFKG;Customer; RUN ;Piece G\r\n12,5; K-1 ;R-1;800\r\n\r\n;K-2;R-2;\r\n");
    REQUIRE(read);
    REQUIRE(read->size() == 2);
    CHECK((*read)[0].line == 2);
    CHECK((*read)[0].dispatch == DispatchDraft{"", "R-1", "K-1", "", "12,5", "800", "", "", ""});
    CHECK((*read)[1].line == 4);
    CHECK((*read)[1].dispatch.customer == "K-2");
}

TEST_CASE("A file of dispatches is refused by its head, in words that say which column to add or take out") {
    CHECK_THAT(refused("run,kg,colour\nR-1,5,red\n"),
               Contains("the head \"colour\" is not known") && Contains("no column is headed \"customer\""));
    CHECK_THAT(refused("customer,note\nK-1,x\n"),
               Contains("headed \"run\" or \"product\"") && Contains("headed \"pieces\" or \"kg\""));
    CHECK_THAT(refused("customer,run,kg,piece g,pieceg\nK-1,R-1,5,1,2\n"),
               Contains("stands over two columns"));
    CHECK_THAT(refused("customer,run,kg\n"), Contains("has no line below its head"));
    CHECK_FALSE(refused("").empty());
    CHECK_FALSE(refused("customer,run,kg\nK-1,R-1\n").empty());     // a field is missing
    CHECK_FALSE(refused("customer,run,kg\n\"K-1,R-1,5\n").empty()); // torn
    std::string many = "customer,run,kg\n";
    for (int i = 0; i < 10'001; ++i)
        many += "K,R,1\n";
    CHECK_THAT(refused(many), Contains("10000 at most are read"));
}
