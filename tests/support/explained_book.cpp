#include "support/explained_book.h"

namespace mellowbin::tests {
namespace {

class ExplainedBook final : public Connection {
public:
    ExplainedBook(Walks& walks, const std::string& book) : walks_(walks), book_(book) {}

    std::int64_t execute(std::string_view sql, Parameters parameters) override {
        return book_.execute(sql, parameters);
    }
    void query(std::string_view sql, Parameters parameters, const RowReader& read) override {
        if (walks_.is_listening)
            explain(sql, parameters);
        book_.query(sql, parameters, read);
    }
    bool was_written_elsewhere() override { return book_.was_written_elsewhere(); }
    Result<Done> save_copy(const std::filesystem::path& to) override { return book_.save_copy(to); }
    std::vector<std::string> faults() override { return book_.faults(); }

private:
    void explain(std::string_view sql, Parameters parameters) {
        ++walks_.questions;
        book_.query("EXPLAIN QUERY PLAN " + std::string(sql), parameters, [&](const Row& row) {
            const auto step = row.words(3);
            if (step.starts_with("SEARCH"))
                walks_.searches.push_back(step);
            if (step.starts_with("SCAN") && step != "SCAN CONSTANT ROW")
                walks_.steps.push_back(step + " of: " + std::string(sql));
        });
    }
    void begin_writing() override { book_.execute("BEGIN IMMEDIATE"); }
    void begin_reading() override { book_.execute("BEGIN"); }
    void commit() override { book_.execute("COMMIT"); }
    void roll_back() noexcept override {
        try {
            book_.execute("ROLLBACK");
        } catch (const BookError&) { // there was nothing to roll back
        }
    }

    Walks& walks_;
    SqliteConnection book_;
};

} // namespace

std::vector<std::string> Walks::without(const std::string& partial_index) const {
    std::vector<std::string> others;
    for (const auto& step : steps)
        if (step.find("USING INDEX " + partial_index) == std::string::npos &&
            step.find("USING COVERING INDEX " + partial_index) == std::string::npos)
            others.push_back(step);
    return others;
}

std::vector<std::string> Walks::of_all_years() const {
    std::vector<std::string> found;
    for (const auto& step : searches)
        if (step.find("mill_id=?") != std::string::npos && step.find("_on>?") == std::string::npos &&
            step.find("_that_is_open") == std::string::npos)
            found.push_back(step);
    return found;
}

std::unique_ptr<Connection> open_explained(Walks& walks, const std::string& book) {
    return std::make_unique<ExplainedBook>(walks, book);
}

} // namespace mellowbin::tests
