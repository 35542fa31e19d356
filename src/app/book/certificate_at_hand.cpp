#include "app/book/certificate_at_hand.h"

#include "app/book/book.h"
#include "app/book/fields.h"
#include "app/book/mill_words.h"
#include "app/book/pdf_text.h"
#include "exchange/certificate_paper.h"
#include "exchange/laid_out_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace mellowbin::app {
namespace {

using exchange::CertificateReading;

constexpr const char* field = "Certificate file";

Refusal unreadable(const std::string& path, std::string_view why) {
    return {field, fmt::format("\"{}\" cannot be read: {}", path, why),
            "Check the name and that the file is there"};
}

Result<std::vector<exchange::Sheet>> tables_in(std::string_view bytes) {
    if (exchange::paper_kind(bytes) != exchange::PaperKind::pdf)
        return exchange::read_paper(bytes);
    const auto text = pdf_text(bytes);
    if (!text)
        return text.refusals();
    auto sheet = exchange::read_laid_out_text(*text, exchange::SheetKind::pages);
    if (!sheet)
        return sheet.refusals();
    return std::vector{*std::move(sheet)};
}

/// The mill that all lots of the paper are of, by the plant's own name; not known: they say none, or several.
MillId mill_of(const CertificateReading& reading, const Book& book) {
    MillId found;
    for (const auto& lot : reading.lots) {
        const auto at = std::find_if(book.mills.begin(), book.mills.end(),
                                     [&](const Mill& mill) { return mill.name == lot.draft.mill; });
        if (at == book.mills.end() || (found.is_known() && found != at->id))
            return {};
        found = at->id;
    }
    return found;
}

MillId mill_named(const Book& book, const std::string& name) {
    const auto at = std::find_if(book.mills.begin(), book.mills.end(),
                                 [&](const Mill& mill) { return mill.name == name; });
    return at == book.mills.end() ? MillId{} : at->id;
}

/// What every mill calls itself: by it a paper is known whose mill nobody said.
exchange::CertificateMapping names_of_mills(const Book& book) {
    exchange::CertificateMapping mapping;
    for (const auto& word : book.mill_words)
        if (word.kind == MillWordKind::mill)
            mapping.names.push_back({std::string(key_of(word.kind)), word.word, word.shown, word.means});
    return mapping;
}

} // namespace

Result<CertificateSource> read_source(const std::string& path) {
    const exchange::SheetLimits limits;
    std::error_code error;
    if (std::filesystem::is_directory(path, error))
        return unreadable(path, "it is a folder");
    const auto size = std::filesystem::file_size(path, error);
    if (error)
        return unreadable(path, error.message());
    if (size > limits.file_bytes)
        return unreadable(path, fmt::format("it has {} MB, and a certificate has {} at most",
                                            size / 1'000'000, limits.file_bytes / 1'000'000));
    std::ifstream file(path, std::ios::binary);
    std::ostringstream bytes;
    if (file)
        bytes << file.rdbuf();
    if (size > 0 && (!file || file.bad()))
        return unreadable(path, std::strerror(errno));
    CertificateSource source;
    source.name = std::filesystem::path(path).filename().string();
    source.bytes = bytes.str();
    if (source.bytes.empty())
        return unreadable(path, "nothing is in it");
    return source;
}

bool has_our_heads(std::string_view bytes) {
    return exchange::paper_kind(bytes) == exchange::PaperKind::text && read_certificates(bytes, {});
}

void CertificateAtHand::begin(CertificateSource from, std::string path_of_it, CertificateDefaults given) {
    put_aside();
    source = std::move(from);
    path = std::move(path_of_it);
    defaults = std::move(given);
    ++opened;
    tables_ = Job<Tables>([bytes = source.bytes](std::stop_token) { return tables_in(bytes); });
}

Result<Done> CertificateAtHand::finish() {
    auto tables = tables_.take();
    if (!tables)
        return tables.refusals();
    sheets_ = *std::move(tables);
    is_open = true;
    return Done{};
}

void CertificateAtHand::put_aside() {
    std::erase_if(left_, [](const Job<Tables>& job) { return job.is_done(); });
    if (tables_.is_running())
        left_.push_back(std::exchange(tables_, {}));
    source = {};
    path.clear();
    is_open = false;
    ++made;
    defaults = {};
    of_lot.clear();
    corrected.clear();
    answers.clear();
    reading = {};
    mill = {};
    sheets_.clear();
}

void CertificateAtHand::understand(const Book& book) {
    exchange::CertificateRequest request;
    request.answers = answers;
    request.defaults = defaults;
    request.must_be.lot = of_lot;
    request.mills = names_in_use(book.mills);
    request.flours = names_in_use(book.flours);
    const auto read_by = [&](MillId whose) {
        mill = whose;
        auto known = whose.is_known() ? mapping_of(book, whose) : names_of_mills(book);
        request.known = exchange::with_learned(std::move(known), {corrected, {}, {}, {}});
        reading = exchange::understand(sheets_, request);
    };
    read_by(mill_named(book, defaults.mill));
    if (const auto said = mill_of(reading, book); said.is_known() && said != mill)
        read_by(said); // what the paper says wins
    ++made;
}

} // namespace mellowbin::app
