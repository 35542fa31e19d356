#include "book_support.h"
#include "db/journal_store.h"
#include "db/movement_store.h"

#include <SQLiteCpp/Database.h>
#include <fmt/format.h>

#include <csignal>
#include <set>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace mellowbin {
namespace {

namespace fs = std::filesystem;

std::set<std::string> codes_in(Connection& book) {
    std::set<std::string> codes;
    for (const auto& lot : LotStore(book).all())
        codes.insert(lot.code);
    return codes;
}

/// Every lot has its certificate, its receipt and its journal line: nothing is half written.
bool is_whole(Connection& book) {
    const auto lots = count_of(book, "lot");
    return book.faults().empty() && count_of(book, "lot_value") == 3 * lots &&
           count_of(book, "movement") == lots && count_of(book, "journal") == lots + 1;
}

/// Takes lots in until the disk is full; the last code that was confirmed in `confirmed`. 0 when all went as
/// it should.
int fill_until_full(const fs::path& path, int& confirmed) {
    SqliteConnection book(path);
    const auto plant = add_small_plant(book);
    for (confirmed = 0; confirmed < 100'000; ++confirmed) {
        try {
            take_in(book, plant, fmt::format("W{}", confirmed + 1));
        } catch (const BookError& error) {
            const std::string_view words = error.what();
            if (error.fault() != BookFault::disk_full || words.find("full") == std::string_view::npos ||
                words.find("not saved") == std::string_view::npos) {
                fmt::print(stderr, "{} [{}]\n", words, error.detail());
                return 1;
            }
            return std::ssize(LotStore(book).all()) == confirmed ? 0 : 2; // it can still be read
        }
    }
    return 3;
}

/// A disk of so many kilobytes in a folder of its own, for as long as the scope lasts.
class SmallDisk {
public:
    explicit SmallDisk(int kilobytes) : is_mounted_(mount(fmt::format("size={}k", kilobytes), 0)) {}
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;
    ~SmallDisk() {
        if (is_mounted_)
            ::umount(folder_.path().c_str());
    }
    /// Only root may mount one, and not everywhere.
    [[nodiscard]] bool is_there() const { return is_mounted_; }
    /// Space is made as a person makes it: on the same disk, then the work goes on.
    void make_room() { REQUIRE(mount("size=8m", MS_REMOUNT)); }
    [[nodiscard]] const fs::path& path() const { return folder_.path(); }

private:
    bool mount(const std::string& size, unsigned long how) {
        return ::mount("none", folder_.path().c_str(), "tmpfs", how, size.c_str()) == 0;
    }
    TemporaryFolder folder_;
    bool is_mounted_;
};

void check_after_full(const fs::path& path, int confirmed) {
    CHECK(confirmed > 5);
    SqliteConnection book(path);
    CHECK(std::ssize(codes_in(book)) == confirmed);
    CHECK(is_whole(book));
}

} // namespace

TEST_CASE("When the disk is full a person is told, the change is not saved, and all before it is") {
    SmallDisk disk(1536);
    if (!disk.is_there()) {
        WARN("no small disk can be mounted here; the test of the largest file size stands for it");
        return;
    }
    int confirmed = 0;
    CHECK(fill_until_full(disk.path() / "book", confirmed) == 0);
    fs::remove(disk.path() / "book-shm"); // closed by now; what is left of the log is read again
    disk.make_room();
    check_after_full(disk.path() / "book", confirmed);
    SqliteConnection book(disk.path() / "book");
    const auto mill = PlantStore(book).mills().at(0).id;
    const SmallPlant plant{mill, FlourId{1}, PlaceId{1}, PlaceId{2}, ProductId{1}, LineId{1}};
    take_in(book, plant, "after");
}

TEST_CASE("A limit on the size of a file counts as a full disk") {
    const TemporaryFolder folder;
    int pipe_ends[2];
    REQUIRE(::pipe(pipe_ends) == 0);
    const int code = in_a_child([&] {
        std::signal(SIGXFSZ, SIG_IGN); // as for every program that would rather hear of it from write()
        const rlimit largest{1'200'000, 1'200'000};
        if (::setrlimit(RLIMIT_FSIZE, &largest) != 0)
            return 4;
        int confirmed = 0;
        const int went = fill_until_full(folder / "book", confirmed);
        return ::write(pipe_ends[1], &confirmed, sizeof confirmed) == sizeof confirmed ? went : 5;
    });
    CHECK(code == 0);
    int confirmed = 0;
    REQUIRE(::read(pipe_ends[0], &confirmed, sizeof confirmed) == sizeof confirmed);
    ::close(pipe_ends[0]);
    ::close(pipe_ends[1]);
    check_after_full(folder / "book", confirmed);
}

TEST_CASE("A full disk while a book is made or copied leaves no half of it behind") {
    const TemporaryFolder folder;
    const int code = in_a_child([&] {
        std::signal(SIGXFSZ, SIG_IGN);
        const rlimit largest{50'000, 50'000};
        if (::setrlimit(RLIMIT_FSIZE, &largest) != 0)
            return 4;
        try {
            SqliteConnection book(folder / "book");
            return 1;
        } catch (const BookError& error) {
            return error.fault() == BookFault::disk_full ? 0 : 2;
        }
    });
    CHECK(code == 0);
    CHECK(fs::is_empty(folder.path()));
}

TEST_CASE("However little room the disk has, a new book is whole or is not there") {
    int whole = 0;
    int refused = 0;
    for (int kilobytes = 32; kilobytes <= 1024; kilobytes += 32) {
        INFO(kilobytes);
        SmallDisk disk(kilobytes);
        if (!disk.is_there()) {
            WARN(
                "no small disk can be mounted here, and a limit on the size of a file does not stand for it");
            return;
        }
        try {
            SqliteConnection book(disk.path() / "book");
        } catch (const BookError& error) {
            CHECK(error.fault() == BookFault::disk_full);
            ++refused;
        }
        disk.make_room();
        if (fs::exists(disk.path() / "book")) {
            SqliteConnection book(disk.path() / "book");
            CHECK(book.faults().empty());
            ++whole;
        } else {
            CHECK(fs::is_empty(disk.path()));
        }
    }
    CHECK(refused > 0);
    CHECK(whole > 0);
}

TEST_CASE("Killed at any instant, the book keeps every lot that was confirmed, whole") {
    const TemporaryFolder folder;
    const auto plant = [&] {
        SqliteConnection book(folder / "book");
        return add_small_plant(book);
    }();
    std::set<std::string> confirmed;
    for (int round = 0; round < 12; ++round) {
        int pipe_ends[2];
        REQUIRE(::pipe(pipe_ends) == 0);
        const pid_t child = ::fork();
        if (child == 0) {
            ::close(pipe_ends[0]);
            ::alarm(120); // a child that stands still fails the test instead of holding it up
            try {
                SqliteConnection book(folder / "book");
                for (int i = 0;; ++i) {
                    const auto code = fmt::format("{:02}-{:04}\n", round, i);
                    take_in(book, plant, code.substr(0, code.size() - 1));
                    if (::write(pipe_ends[1], code.data(), code.size()) < 0)
                        break;
                }
            } catch (const std::exception& error) {
                fmt::print(stderr, "in the child: {}\n", error.what());
            }
            ::_exit(1);
        }
        ::close(pipe_ends[1]);
        // Lots are confirmed for a while; then the child is killed in the midst of one.
        std::string heard;
        char bytes[64];
        const auto enough = static_cast<std::size_t>(8 * (3 + round));
        bool is_killed = false;
        for (ssize_t got = 0; (got = ::read(pipe_ends[0], bytes, sizeof bytes)) > 0;) {
            heard.append(bytes, static_cast<std::size_t>(got));
            if (heard.size() >= enough && !is_killed) {
                ::usleep(static_cast<useconds_t>(137 * round));
                ::kill(child, SIGKILL);
                is_killed = true; // what it confirmed before is still read
            }
        }
        ::close(pipe_ends[0]);
        int status = 0;
        ::waitpid(child, &status, 0);
        REQUIRE(WIFSIGNALED(status));
        REQUIRE(WTERMSIG(status) == SIGKILL);
        for (std::size_t at = 0; at + 8 <= heard.size(); at += 8)
            confirmed.insert(heard.substr(at, 7));

        SqliteConnection book(folder / "book");
        const auto kept = codes_in(book);
        for (const auto& code : confirmed) {
            INFO(code);
            CHECK(kept.contains(code));
        }
        CHECK(kept.size() <=
              confirmed.size() + static_cast<std::size_t>(round) + 1); // one a kill may be unheard
        CHECK(is_whole(book));
    }
    CHECK(confirmed.size() > 36);
}

} // namespace mellowbin
