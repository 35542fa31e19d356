#include "app/book/paper_out.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/refusal_words.h"
#include "support/temporary_folder.h"

#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <sys/resource.h>
#include <sys/stat.h>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using testing::all_words;
namespace fs = std::filesystem;

namespace {

const std::string paper = "%PDF-1.5 /Creator (mellowbin: printed paper) " + std::string(100'000, 'x');

/// A program that stands for `lp`: it keeps its words, a line each, and what it is given.
fs::path a_printing_program(const tests::TemporaryFolder& folder, const std::string& rest) {
    const auto file = folder / "lp";
    std::ofstream(file) << "#!/bin/sh\nprintf '%s\\n' \"$@\" > '" << (folder / "words").string()
                        << "'\ncat > '" << (folder / "given").string() << "'\n"
                        << rest << "\n";
    fs::permissions(file, fs::perms::owner_all);
    return file;
}

std::string refusal_of(const Result<std::string>& result) {
    return result ? "was taken" : all_words(result.refusals());
}

/// As long as it lives, no file of this process grows beyond so many bytes: as on a disk that is full.
class FullDisk {
public:
    explicit FullDisk(rlim_t bytes) : signal_(std::signal(SIGXFSZ, SIG_IGN)) {
        getrlimit(RLIMIT_FSIZE, &before_);
        const rlimit less{bytes, before_.rlim_max};
        setrlimit(RLIMIT_FSIZE, &less);
    }
    ~FullDisk() {
        setrlimit(RLIMIT_FSIZE, &before_);
        std::signal(SIGXFSZ, signal_);
    }
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;

private:
    void (*signal_)(int);
    rlimit before_{};
};

} // namespace

TEST_CASE("A paper is written whole, over one that was printed before, for others to read as well") {
    const tests::TemporaryFolder folder;
    const auto file = folder / "label.pdf";
    for (int time = 0; time < 2; ++time)
        REQUIRE(write_paper(file, paper));
    CHECK(testing::file_bytes(file) == paper);
    const auto mask = umask(0);
    umask(mask);
    CHECK((fs::status(file).permissions() & fs::perms::group_read) ==
          ((mask & 040) != 0 ? fs::perms::none : fs::perms::group_read));
}

TEST_CASE("A disk that is full is named, and leaves no half a paper") {
    const tests::TemporaryFolder folder;
    const auto file = folder / "label.pdf";
    const auto written = [&] {
        const FullDisk full(1000);
        return write_paper(file, paper);
    }();
    REQUIRE_FALSE(written);
    CHECK_THAT(all_words(written.refusals()), Contains("cannot be written") && Contains("label.pdf"));
    CHECK(fs::is_empty(folder.path()));
}

TEST_CASE("Neither a folder that is not there nor another's file is written to") {
    const tests::TemporaryFolder folder;
    const auto none = write_paper(folder / "none" / "label.pdf", paper);
    REQUIRE_FALSE(none);
    CHECK_THAT(all_words(none.refusals()), Contains("there is no folder"));
    const auto other = folder / "invoice.pdf";
    std::ofstream(other) << "%PDF-1.5 of somebody else";
    const auto kept = write_paper(other, paper);
    REQUIRE_FALSE(kept);
    CHECK_THAT(all_words(kept.refusals()), Contains("is no printed paper"));
    CHECK(testing::file_bytes(other) == "%PDF-1.5 of somebody else");
    CHECK_FALSE(write_paper(folder.path(), paper));
}

TEST_CASE("A printer is given the paper itself, its size and its name, word by word and through no shell") {
    const tests::TemporaryFolder folder;
    const auto program = a_printing_program(folder, "echo 'request id is dock-7 (0 file(s))'");
    const auto taken =
        send_to_printer({"dock;touch", "Custom.105x148mm", "Label of lot $(A) 'B'", program.string()}, paper);
    INFO(refusal_of(taken));
    REQUIRE(taken);
    CHECK(*taken == "request id is dock-7 (0 file(s))");
    CHECK(testing::file_bytes(folder / "words") ==
          "-d\ndock;touch\n-o\nmedia=Custom.105x148mm\n-t\nLabel of lot $(A) 'B'\n");
    CHECK(testing::file_bytes(folder / "given") == paper);
}

TEST_CASE("A printer that is not there is named with what the print system says of it") {
    const tests::TemporaryFolder folder;
    const auto program =
        a_printing_program(folder, "echo 'lp: The printer or class does not exist.' >&2; exit 1");
    CHECK_THAT(refusal_of(send_to_printer({"attic", "A4", "Label", program.string()}, paper)),
               Contains("Printer") &&
                   Contains("\"attic\" took nothing: lp: The printer or class does not exist."));
}

TEST_CASE("A machine without a print system says what it lacks, and a queue that is silent is given up") {
    const tests::TemporaryFolder folder;
    CHECK_THAT(refusal_of(send_to_printer({"dock", "A4", "Label", "no-such-lp-program"}, paper)),
               Contains("which is not on this machine") && Contains("cups-client"));
    Printing slow{"dock", "A4", "Label", a_printing_program(folder, "sleep 30").string()};
    slow.time = std::chrono::milliseconds(300);
    CHECK_THAT(refusal_of(send_to_printer(slow, paper)), Contains("no answer within 0.3 s"));
}

TEST_CASE("What can be no queue's name is not handed on") {
    for (const char* queue : {"", "-h", "two words", "a/b", "a#b", "a\nb"})
        CHECK_THAT(refusal_of(send_to_printer({queue, "A4", "Label", "no-such-lp-program"}, paper)),
                   Contains("is no queue's name"));
}
