#pragma once

#include "app/book/job.h"
#include "core/certificate_source.h"
#include "core/result.h"
#include "exchange/certificate_sheet.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::app {

struct Book;

/// The file as it is on the disk. Refused where it cannot be read, has nothing in it or is larger than any
/// certificate.
Result<CertificateSource> read_source(const std::string& path);
/// It is a CSV file with the heads that this program names itself, and is read without a question.
bool has_our_heads(std::string_view bytes);

/// The certificate that a person looks at before anything of it is kept: its tables, what was said of them,
/// and what was understood. Nothing of it is in the book.
struct CertificateAtHand {
    CertificateSource source;
    std::string path; ///< of the file; empty: pasted
    bool is_open = false;
    std::uint64_t opened = 0; ///< counts
    std::uint64_t made = 0;   ///< counts how often it was understood

    // What a person said of it.
    CertificateDefaults defaults;
    std::string of_lot; ///< that it must be of; empty: any
    std::vector<exchange::LabelMeaning> corrected;
    std::vector<exchange::CertificateAnswer> answers;

    exchange::CertificateReading reading;
    MillId mill; ///< whose words it was read by; not known: nobody's

    /// Its tables are taken out of the bytes on a worker; open once finish() took them.
    void begin(CertificateSource from, std::string path_of_it, CertificateDefaults given);
    [[nodiscard]] bool is_running() const { return tables_.is_running(); }
    [[nodiscard]] bool is_done() const { return tables_.is_done(); }
    void wait() const { tables_.wait(); }
    /// Takes the tables over: done, or why they cannot be read. The exception of the worker flies here.
    Result<Done> finish();
    /// Nothing is looked at any more; a worker that still reads is left to end by itself.
    void put_aside();

    /// By what the book knows of the mill now, and what was said.
    void understand(const Book& book);

private:
    using Tables = Result<std::vector<exchange::Sheet>>;
    std::vector<exchange::Sheet> sheets_;
    Job<Tables> tables_;
    std::vector<Job<Tables>> left_; ///< nobody waits for them
};

} // namespace mellowbin::app
