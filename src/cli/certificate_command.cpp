#include "cli/certificate_command.h"

#include "app/acts/certificates.h"
#include "app/acts/notice.h"
#include "app/app.h"
#include "app/book/certificate_at_hand.h"
#include "app/book/setup.h"
#include "app/models/intake.h"
#include "cli/certificate_words.h"
#include "cli/pallet_words.h"
#include "cli/say.h"
#include "core/typed_text.h"
#include "exchange/certificate_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <ostream>
#include <utility>

namespace mellowbin::cli {
namespace {

using namespace app;

constexpr std::string_view piped = "-";

/// What stands before and behind the first "=", without blanks round it; nothing where there is none.
std::optional<std::pair<std::string, std::string>> parted(std::string_view text) {
    const auto at = text.find('=');
    if (at == std::string_view::npos)
        return {};
    return std::pair{std::string(trimmed(text.substr(0, at))), std::string(trimmed(text.substr(at + 1)))};
}

/// The key of a meaning by its key or its name, whatever its capitals; nothing where there is none.
std::optional<std::string> meaning_key(const std::string& words) {
    for (const auto& choice : meaning_choices())
        if (same_words(choice.key, words) || same_words(choice.name, words))
            return choice.key;
    return {};
}

std::string LabelSaid::*part_named(std::string_view name) {
    if (name == "unit")
        return &LabelSaid::unit;
    if (name == "basis")
        return &LabelSaid::basis;
    if (name == "method")
        return &LabelSaid::method;
    return name == "n" ? &LabelSaid::nitrogen_factor : nullptr;
}

Refusal no_meaning(std::string_view typed) {
    return {"--map", fmt::format("\"{}\" was read", excerpt(typed)),
            fmt::format("Write it as \"{}\"", meaning_form)};
}

Result<CertificateSaid> read_said(const CertificateTyped& typed) {
    CertificateSaid said;
    said.mill = typed.defaults.mill;
    Refusals refusals;
    for (const auto& words : typed.meanings) {
        auto label = read_label_said(words);
        if (label)
            said.labels.push_back(*std::move(label));
        else
            append(refusals, label.refusals());
    }
    for (const auto& words : typed.answers) {
        // A question's key may have a "=" in it, an answer has none.
        const auto at = words.rfind('=');
        if (at == std::string::npos)
            refusals.push_back({"--answer", fmt::format("\"{}\" was read", excerpt(words)),
                                fmt::format("Write it as \"{}\"", answer_form)});
        else
            said.answers.push_back({std::string(trimmed(std::string_view(words).substr(0, at))),
                                    std::string(trimmed(std::string_view(words).substr(at + 1)))});
    }
    if (!refusals.empty())
        return refusals;
    return said;
}

void print_asked(Session& session, const CertificateModel& certificate) {
    auto& err = session.world().err;
    for (const auto& asked : certificate.asked) {
        say(err, "mellowbin: {}: {}\n", asked.where, asked.words);
        if (asked.choices.empty())
            say(err, "mellowbin:   --answer \"{}=…\"\n", asked.key);
        for (const auto& choice : asked.choices)
            say(err, "mellowbin:   --answer \"{}={}\"  {}\n", asked.key, choice.key, choice.words);
    }
}

/// It was read and is understood by what was said; else the exit code.
std::optional<int> read(Session& session, App& app, const CertificateTyped& typed) {
    const auto said = read_said(typed);
    if (!said)
        return session.refused(said.refusals());
    if (typed.file == piped)
        app.handle(ReadPastedCertificate{piped_in(session.world()), typed.defaults});
    else
        app.handle(ReadCertificateFile{typed.file, typed.defaults});
    if (app.intake().certificate.is_reading)
        app.finish_work();
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    app.handle(UnderstandCertificate{*said, typed.of_lot});
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    return {};
}

} // namespace

Result<LabelSaid> read_label_said(std::string_view typed) {
    LabelSaid said;
    bool is_first = true;
    for (std::string_view rest = typed; is_first || !rest.empty();) {
        const auto end = rest.find(';');
        const auto part = parted(rest.substr(0, end));
        rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
        if (!part || part->first.empty())
            return no_meaning(typed);
        if (std::exchange(is_first, false)) {
            const auto means = meaning_key(part->second);
            if (!means)
                return Refusal{
                    "--map", fmt::format("\"{}\" is nothing that a certificate says", excerpt(part->second)),
                    "Name a figure, a fact of a lot, something the mill added, or: left out"};
            said.label = exchange::folded(part->first);
            said.means = *means;
        } else if (const auto field = part_named(part->first)) {
            said.*field = part->second;
        } else {
            return no_meaning(typed);
        }
    }
    return said;
}

bool is_certificate_to_understand(const std::string& file) {
    if (file == piped)
        return true;
    const auto source = read_source(file);
    return source && !has_our_heads(source->bytes); // what cannot be read is told where it is taken in
}

int take_in_certificate(Session& session, const CertificateTyped& typed, SaidBeside beside) {
    App app(session.set_up());
    find_by_order(session, app, beside.delivery.said);
    if (const auto code = read(session, app, typed))
        return *code;
    const auto certificate = app.intake().certificate;
    if (session.wants_json())
        session.out() << certificate_as_json(certificate);
    else
        print_certificate(session.out(), certificate);
    for (const auto& note : certificate.notes)
        say(session.world().err, "mellowbin: note: {}\n", note);
    const auto nothing = [&](std::string_view why) {
        say(session.world().err, "mellowbin: nothing was taken in{}\n", why);
        return not_done;
    };
    print_asked(session, certificate);
    if (!typed.confirm) {
        session.complain(certificate.troubles);
        for (const auto& lot : certificate.lots)
            session.complain(lot.refusals);
        return nothing("; with --confirm the lots come in as they were understood");
    }
    app.handle(ConfirmCertificate{
        certificate.made, typed.only_what_is_good ? FaultyLines::leave_out : FaultyLines::take_nothing, true,
        typed.defaults.accept_reason});
    if (session.told_if_wrong(app) != done)
        return nothing("");
    const auto left_out = app.intake().file_refusals;
    auto& err = session.world().err;
    say(err, "mellowbin: {}\n", app.notice().words);
    app.handle(TakeIn{app.intake().read_drafts, std::move(beside.door), std::move(beside.delivery),
                      std::move(beside.pallets)});
    if (session.told_if_wrong(app) != done)
        return nothing("");
    if (session.wants_json())
        say(err, "mellowbin: {}\n", app.notice().words);
    else
        say(session.out(), "{}\n", app.notice().words);
    session.complain(left_out);
    return left_out.empty() ? done : not_done;
}

} // namespace mellowbin::cli
