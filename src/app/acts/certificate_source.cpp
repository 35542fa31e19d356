#include "app/acts/certificate_source.h"

#include "app/acts/certificates.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/certificate_at_hand.h"
#include "core/fingerprint.h"
#include "db/certificate_source_store.h"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <optional>
#include <system_error>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;

/// Where the certificates of a delivery are in the book, each looked for once.
class Sources {
public:
    Sources(State& state, Change& change) : store_(*state.connection), change_(change) {}

    /// Nothing where the lot came with none, or it cannot be kept any more.
    std::optional<CertificateSourceId> of(const std::string& words) {
        const auto [at, is_new] = found_.try_emplace(words);
        if (is_new)
            at->second = find(source_named(words));
        return at->second;
    }
    [[nodiscard]] const std::string& troubles() const { return troubles_; }

private:
    std::optional<CertificateSourceId> find(const SourceName& source) {
        if (source.is_empty())
            return {};
        if (source.kept.is_known()) {
            if (store_.has(source.kept))
                return source.kept;
            troubles_ += ". The certificate is not in this book any more: it was put back to an earlier day";
            return {};
        }
        const auto file = read_source(source.path);
        if (file && fingerprint(file->bytes) == source.fingerprint)
            return store_.keep(change_, *file);
        troubles_ += fmt::format(". The certificate {} was not kept: {}", source.path,
                                 file ? "it was changed since it was read" : file.refusals().front().what);
        return {};
    }

    CertificateSourceStore store_;
    Change& change_;
    std::map<std::string, std::optional<CertificateSourceId>> found_;
    std::string troubles_;
};

Refusal cannot_be_written(const fs::path& file, std::string_view why) {
    return {"File", fmt::format("\"{}\" cannot be written: {}", file.string(), why),
            "Name a file that is not there yet, in a folder that can be written to"};
}

/// A name that a file may have: pasted text has none of its own.
std::string file_name_of(const CertificateSource& source) {
    return source.is_pasted ? "pasted-text.txt" : source.name;
}

/// Why not; empty: it is written. Under another name first, so that no half a file bears it.
std::string write_new(const fs::path& file, const std::string& bytes) {
    std::error_code failed;
    if (fs::exists(file, failed))
        return "it is there already, and is kept as it is";
    if (!fs::is_directory(file.parent_path(), failed))
        return fmt::format("there is no folder \"{}\"", file.parent_path().string());
    auto unfinished = file;
    unfinished += ".unfinished";
    std::ofstream out(unfinished, std::ios::binary | std::ios::trunc);
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    out.close();
    if (!out) {
        fs::remove(unfinished, failed);
        return "the folder does not let a file be written";
    }
    fs::rename(unfinished, file, failed);
    return failed ? failed.message() : std::string();
}

} // namespace

CameWith came_with(const LotDraft& draft) { return {draft.certificate_source, draft.certificate_place}; }

CertificateDefaults defaults_of(const State& state, const LotDraft& defaults) {
    return {defaults.mill, defaults.flour, defaults.place,
            defaults.delivered_on.empty() ? iso(state.today()) : defaults.delivered_on};
}

Result<CertificateFile> read_our_file(State& state, const std::string& path, const LotDraft& defaults) {
    const auto source = read_source(path);
    if (!source)
        return source.refusals();
    auto read = read_certificates(source->bytes, defaults_of(state, defaults));
    if (!read)
        return read;
    state.intake.file_notes = read->notes;
    std::error_code failed;
    const auto whole =
        fs::absolute(path, failed); // the window may be opened elsewhere before they are taken in
    const auto name = as_text(SourceName{{}, failed ? path : whole.string(), fingerprint(source->bytes)});
    for (auto& [line, draft] : read->lines) {
        draft.certificate_source = name;
        draft.certificate_place = fmt::format("line {}", line);
    }
    return read;
}

Result<std::string> tie_certificates(State& state, Change& change, const std::vector<LotId>& lots,
                                     const std::vector<CameWith>& came_with) {
    Sources sources(state, change);
    for (std::size_t i = 0; i < lots.size() && i < came_with.size(); ++i)
        if (const auto source = sources.of(came_with[i].source))
            if (const auto tied = CertificateSourceStore(*state.connection)
                                      .tie(change, lots[i], *source, came_with[i].place);
                !tied)
                return tied.refusals();
    return sources.troubles();
}

Result<Told> carry_out(State& state, const SaveCertificateSource& act) {
    const CertificateSourceStore sources(*state.connection);
    const auto of_lot = sources.of(act.lot);
    const auto source = of_lot ? sources.source(of_lot->id) : std::nullopt;
    if (!source)
        return Refusal{"Certificate", "no file was kept of this lot's certificate", "Ask the mill for it"};
    const auto& book = state.setup.book;
    if (act.path.empty() && (book.empty() || book == ":memory:"))
        return Refusal{"File", "is empty, and this book has no folder to save beside", "Name a file"};
    std::error_code failed;
    fs::path file = fs::absolute(act.path.empty() ? book : act.path, failed);
    if (act.path.empty())
        file = file.parent_path();

    if (fs::is_directory(file, failed))
        file /= file_name_of(*source);
    if (const auto why = write_new(file, source->bytes); !why.empty())
        return cannot_be_written(file, why);
    return Told{fmt::format("{} written to {}", source->name, file.string())};
}

} // namespace mellowbin::app
