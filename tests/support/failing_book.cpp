#include "support/failing_book.h"

namespace mellowbin::tests {
namespace {

/// Passes everything on to a real book, and throws what SQLite's driver throws of a disk that fails.
class FailingBook final : public Connection {
public:
    FailingBook(Disk& disk, const std::string& book) : disk_(disk), book_(book) {}

    std::int64_t execute(std::string_view sql, Parameters parameters) override {
        if (is_writing_)
            fail_if(Disk::Fails::in_a_statement);
        return book_.execute(sql, parameters);
    }
    void query(std::string_view sql, Parameters parameters, const RowReader& read) override {
        if (!is_writing_ && (has_committed_ || disk_.has_failed)) {
            fail_if(Disk::Fails::reading);
            fail_if(Disk::Fails::reading_once);
        }
        book_.query(sql, parameters, read);
    }
    bool was_written_elsewhere() override { return book_.was_written_elsewhere(); }
    Result<Done> save_copy(const std::filesystem::path& to) override { return book_.save_copy(to); }
    std::vector<std::string> faults() override { return book_.faults(); }

private:
    void fail_if(Disk::Fails when) {
        if (disk_.fails != when)
            return;
        disk_.has_failed = true;
        if (when == Disk::Fails::reading_once)
            disk_.fails = Disk::Fails::never;
        throw BookError(BookFault::disk_error, "The disk did not do what it was asked.", "input/output");
    }
    void begin_writing() override {
        book_.execute("BEGIN IMMEDIATE");
        is_writing_ = true;
    }
    void begin_reading() override { book_.execute("BEGIN"); }
    void commit() override {
        fail_if(Disk::Fails::before_it_is_written);
        book_.execute("COMMIT");
        is_writing_ = false;
        has_committed_ = true;
        fail_if(Disk::Fails::after_it_is_written);
    }
    void roll_back() noexcept override {
        try {
            book_.execute("ROLLBACK");
        } catch (const BookError&) { // there was nothing to roll back
        }
        is_writing_ = false;
    }

    Disk& disk_;
    SqliteConnection book_;
    bool is_writing_ = false;
    bool has_committed_ = false;
};

} // namespace

std::unique_ptr<Connection> open_on(Disk& disk, const std::string& book) {
    if (disk.has_failed && !disk.opens)
        throw BookError(BookFault::disk_error, "The disk did not do what it was asked.", "input/output");
    ++disk.opened;
    return std::make_unique<FailingBook>(disk, book);
}

} // namespace mellowbin::tests
