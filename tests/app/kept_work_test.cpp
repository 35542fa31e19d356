#include "app/book/kept_work.h"
#include "exchange/kept_file.h"
#include "support/catch.h"
#include "support/iso.h"
#include "support/temporary_folder.h"

#include <csignal>
#include <fstream>
#include <optional>
#include <sys/resource.h>

using namespace mellowbin;
using app::KeptWork;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

const Instant four = Instant{day_from_iso("2026-11-24")} + std::chrono::hours{4};

KeptText typed(const std::string& code) {
    return {{"a delivery of 1 lot"}, {{"intake/lots/0/draft/code", code}}};
}

/// A folder and a book, and windows that come and go on them.
struct Station {
    tests::TemporaryFolder folder;
    fs::path state = folder / "state";
    std::string book = (folder / "book.mbook").string();

    [[nodiscard]] KeptWork window() const { return KeptWork(book, state); }
    /// A window types, and is gone.
    void leave(const std::string& code, Instant at = four) const {
        KeptWork window(book, state);
        window.keep(typed(code), at);
        REQUIRE(window.finish());
    }
    [[nodiscard]] std::vector<fs::path> files(std::string_view ending) const {
        std::vector<fs::path> found;
        for (const auto& entry : fs::directory_iterator(state))
            if (entry.path().extension() == ending)
                found.push_back(entry.path());
        return found;
    }
};

/// Files of this process may not grow: as on a full disk.
class NoRoom {
public:
    NoRoom() {
        ::getrlimit(RLIMIT_FSIZE, &before_);
        const rlimit none{0, before_.rlim_max};
        handler_ = std::signal(SIGXFSZ, SIG_IGN);
        ::setrlimit(RLIMIT_FSIZE, &none);
    }
    ~NoRoom() {
        ::setrlimit(RLIMIT_FSIZE, &before_);
        std::signal(SIGXFSZ, handler_);
    }
    NoRoom(const NoRoom&) = delete;
    NoRoom& operator=(const NoRoom&) = delete;

private:
    rlimit before_{};
    void (*handler_)(int) = nullptr;
};

} // namespace

TEST_CASE("What a window that is gone had begun is offered to the next one on the same book") {
    const Station at;
    at.leave("W24-118");
    auto next = at.window();
    REQUIRE(next.left());
    CHECK(next.left()->text == typed("W24-118"));
    CHECK(next.left()->begun_at == four);
    CHECK(next.take_trouble().empty());
}

TEST_CASE("Of a book that is called by another path the same work is offered, of another book none") {
    const Station at;
    at.leave("W24-118");
    fs::create_directory(at.folder / "elsewhere");
    CHECK(KeptWork((at.folder / "elsewhere" / ".." / "book.mbook").string(), at.state).left());
    CHECK_FALSE(KeptWork((at.folder / "other.mbook").string(), at.state).left());
}

TEST_CASE("Work that was done leaves nothing behind") {
    const Station at;
    {
        auto window = at.window();
        window.keep(typed("W24-118"), four);
        window.keep({}, four);
        REQUIRE(window.finish());
    }
    CHECK_FALSE(at.window().left());
    CHECK(at.files(".kept").empty());
}

TEST_CASE("Of texts that come faster than the disk takes them the newest is kept") {
    const Station at;
    {
        auto window = at.window();
        for (int i = 0; i <= 300; ++i)
            window.keep(typed("W" + std::to_string(i)), four);
    } // closed: what waits is written
    auto next = at.window();
    REQUIRE(next.left());
    CHECK(next.left()->text == typed("W300"));
}

TEST_CASE("The same text is not written again") {
    const Station at;
    auto window = at.window();
    window.keep(typed("W24-118"), four);
    REQUIRE(window.finish());
    fs::remove(at.files(".kept").at(0));
    window.keep(typed("W24-118"), four);
    REQUIRE(window.finish());
    CHECK(at.files(".kept").empty());
}

TEST_CASE("Two windows on one book keep their work apart, and neither is offered what the other types") {
    const Station at;
    auto first = at.window(), second = at.window();
    first.keep(typed("W24-118"), four);
    second.keep(typed("W24-200"), four);
    REQUIRE(first.finish());
    REQUIRE(second.finish());
    CHECK(at.files(".kept").size() == 2);
    CHECK_FALSE(at.window().left());
}

TEST_CASE("What several windows left is offered one after another, the newest first, to one window alone") {
    const Station at;
    {
        auto first = at.window(), second = at.window();
        first.keep(typed("W24-118"), four);
        second.keep(typed("W24-200"), four + std::chrono::minutes{5});
        REQUIRE(first.finish());
        REQUIRE(second.finish());
    }
    auto next = at.window();
    REQUIRE(next.left());
    CHECK(next.left()->text == typed("W24-200"));
    CHECK_FALSE(at.window().left()); // the next one holds them
    next.throw_away();
    REQUIRE(next.left());
    CHECK(next.left()->text == typed("W24-118"));
    next.throw_away();
    CHECK_FALSE(next.left());
    CHECK(at.files(".kept").empty());
}

TEST_CASE("Work that was not answered for is offered at the next start again") {
    const Station at;
    at.leave("W24-118");
    { REQUIRE(at.window().left()); }
    {
        auto window = at.window();
        REQUIRE(window.left());
        window.keep(typed("W24-200"), four); // something else is typed beside it
    }
    auto next = at.window();
    REQUIRE(next.left());
    next.throw_away();
    CHECK(next.left());
}

TEST_CASE("Work that is taken up lies where it lay until it is written anew, and then once") {
    const Station at;
    at.leave("W24-118");
    {
        auto window = at.window();
        window.take_up();
        CHECK_FALSE(window.left());
        CHECK(at.files(".kept").size() == 1); // a power cut now loses nothing
        window.keep(typed("W24-118"), four + std::chrono::hours{1});
        REQUIRE(window.finish());
        CHECK(at.files(".kept").size() == 1);
    }
    auto next = at.window();
    REQUIRE(next.left());
    CHECK(next.left()->text == typed("W24-118"));
    CHECK(next.left()->begun_at == four); // when it was begun first
    next.throw_away();
    CHECK_FALSE(next.left());
}

TEST_CASE("A file that is torn or of another version is put aside and said, and the window works") {
    const Station at;
    at.leave("W24-118");
    const auto file = at.files(".kept").at(0);
    SECTION("torn") { fs::resize_file(file, fs::file_size(file) / 2); }
    SECTION("empty") { fs::resize_file(file, 0); }
    SECTION("another version") { std::ofstream(file) << "mellowbin kept work 7\nbook\t/x\n"; }
    SECTION("none of ours") { std::ofstream(file) << std::string(100'000, '\xFE'); }
    auto next = at.window();
    CHECK_FALSE(next.left());
    CHECK_THAT(next.take_trouble(), Contains("put aside") && Contains(".unreadable"));
    CHECK(at.files(".unreadable").size() == 1);
    next.keep(typed("W24-200"), four);
    CHECK(next.finish());
}

TEST_CASE("A folder that cannot be is told once, stops nothing, and is used as soon as it can be") {
    const Station at;
    std::ofstream(at.state) << "a file where the folder should be\n";
    auto window = at.window();
    CHECK_THAT(window.take_trouble(), Contains("not kept") && Contains(at.state.string()));
    window.keep(typed("W24-118"), four);
    CHECK_FALSE(window.finish());
    CHECK(window.take_trouble().empty());
    fs::remove(at.state);
    window.keep(typed("W24-118"), four);
    CHECK(window.finish());
}

TEST_CASE("A disk that takes no more is told once; what was kept before stays, and it is tried again") {
    const Station at;
    auto window = at.window();
    window.keep(typed("W24-118"), four);
    REQUIRE(window.finish());
    bool was_kept = true;
    {
        const NoRoom full;
        window.keep(typed("W24-118 and more"), four);
        was_kept = window.finish();
    }
    CHECK_FALSE(was_kept);
    CHECK_THAT(window.take_trouble(), Contains("not kept"));
    CHECK(window.take_trouble().empty());
    std::ifstream in(at.files(".kept").at(0), std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    const auto read = exchange::read_kept_file(bytes);
    REQUIRE(read);
    CHECK(read->text == typed("W24-118"));
    window.keep(typed("W24-118 and more"), four);
    CHECK(window.finish());
}

TEST_CASE("Of a book in memory nothing is kept, and no folder is made") {
    const Station at;
    KeptWork window(":memory:", at.state);
    window.keep(typed("W24-118"), four);
    CHECK_FALSE(window.finish()); // who closes it is told
    CHECK_FALSE(fs::exists(at.state));
}

TEST_CASE("For a picture what was left is read, and nothing is changed") {
    const Station at;
    at.leave("W24-118");
    {
        KeptWork picture(at.book, at.state, KeptWork::Use::look);
        REQUIRE(picture.left());
        picture.take_up();
        picture.keep(typed("W24-200"), four);
    }
    auto next = at.window();
    REQUIRE(next.left());
    CHECK(next.left()->text == typed("W24-118"));
}
