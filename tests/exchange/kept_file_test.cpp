#include "exchange/kept_file.h"
#include "support/catch.h"
#include "support/iso.h"

using namespace mellowbin;
using Catch::Matchers::Contains;

namespace {

exchange::KeptFile a_file() {
    const auto noon = Instant{day_from_iso("2026-11-24")} + std::chrono::hours{12};
    return {"/srv/bakery/a book.mbook",
            noon,
            noon + std::chrono::seconds{61},
            {{"a delivery of 3 lots", "a retest of lot W24-118"},
             {{"intake/lots", "3"},
              {"intake/lots/0/draft/code", "W24-118"},
              {"intake/door/0/findings/0/note", "wet,\n\tat one corner \\ and torn"},
              {"intake/lots/1/draft/code", "\xFF\x80 no UTF-8"},
              {"lots/retests/6/draft/note", "22 °C, “warm”"}}}};
}

} // namespace

TEST_CASE("Work begun comes back from its file byte by byte") {
    const auto read = exchange::read_kept_file(exchange::bytes_of(a_file()));
    REQUIRE(read);
    CHECK(*read == a_file());
}

TEST_CASE("A file of kept work that ends anywhere but at its end is refused, and says so") {
    const auto bytes = exchange::bytes_of(a_file());
    for (std::size_t length = 0; length < bytes.size(); ++length) {
        const auto read = exchange::read_kept_file(bytes.substr(0, length));
        if (read)
            FAIL_CHECK("taken at " << length << " of " << bytes.size() << " bytes");
    }
    const auto torn = exchange::read_kept_file(bytes.substr(0, bytes.size() / 2));
    REQUIRE_FALSE(torn);
    CHECK_THAT(torn.refusals().front().what, Contains("torn"));
}

TEST_CASE("A file of kept work in which one byte is another is refused") {
    const auto bytes = exchange::bytes_of(a_file());
    for (std::size_t at = 0; at < bytes.size(); ++at) {
        auto changed = bytes;
        changed[at] = static_cast<char>(changed[at] ^ 0x11);
        if (exchange::read_kept_file(changed))
            FAIL_CHECK("taken with another byte " << at);
    }
    auto zeros = bytes; // as some file systems leave it after a power cut
    std::fill(zeros.begin() + 100, zeros.end(), '\0');
    CHECK_FALSE(exchange::read_kept_file(zeros));
}

TEST_CASE("A file of kept work of another version is refused by its version") {
    auto bytes = exchange::bytes_of(a_file());
    bytes.replace(0, bytes.find('\n'), "mellowbin kept work 2");
    const auto read = exchange::read_kept_file(bytes);
    REQUIRE_FALSE(read);
    CHECK_THAT(read.refusals().front().what, Contains("version 2"));
}
