#include "app/acts/certificates.h"

#include "app/acts/certificate_source.h"
#include "app/acts/intent.h"
#include "app/acts/mill_words.h"
#include "app/acts/state.h"
#include "app/book/certificate_at_hand.h"
#include "app/book/door.h"
#include "app/book/mill_words.h"
#include "app/models/mill_words.h"
#include "core/counted.h"
#include "core/typed_text.h"
#include "db/certificate_source_store.h"
#include "db/mill_word_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

void show_certificate(State& state) {
    make_certificate(state.book, state.certificate, state.intake.certificate);
}

Result<Told> begin(State& state, CertificateSource source, const std::string& path,
                   const LotDraft& defaults) {
    state.certificate.begin(std::move(source), path, defaults_of(state, defaults));
    show_certificate(state);
    return Told{}; // the worker tells
}

/// "harrow.xlsx read: 3 lots, 2 things are asked; nothing is kept yet"
std::string read_in_words(const State& state) {
    const auto& reading = state.certificate.reading;
    auto words = fmt::format("{} read: {}", state.certificate.source.name,
                             counted(reading.lots.size(), "lot", "lots"));
    if (!reading.questions.empty())
        words += fmt::format(", {} asked", counted(reading.questions.size(), "thing is", "things are"));
    return words + "; nothing is kept yet";
}

Refusals not_read() { return {{"Certificate", "none is being read", "Choose a file, or paste its text"}}; }

// What becomes of a certificate that was understood

struct Judged {
    std::vector<LotDraft> good;
    Refusals against_others;
};

/// Every reason why the lot may not be kept: what is wrong on the paper, and what is asked.
Refusals reasons_of(const exchange::CertificateReading& reading, const exchange::CertificateLot& lot) {
    Refusals reasons = lot.refusals;
    for (const auto& key : lot.questions) {
        const auto at = std::find_if(reading.questions.begin(), reading.questions.end(),
                                     [&](const auto& question) { return question.key == key; });
        if (at != reading.questions.end())
            reasons.push_back({fmt::format("{}, {}", at->where, at->source_label), at->words, ""});
    }
    return reasons;
}

Judged judge_lots(const State& state, const ConfirmCertificate& act) {
    const auto& reading = state.certificate.reading;
    const auto context = intake_context(state.book, state.today());
    Judged judged;
    for (const auto& lot : reading.lots) {
        auto draft = lot.draft;
        draft.accept_reason = act.accept_reason;
        draft.certificate_place = lot.where;
        auto reasons = reasons_of(reading, lot);
        if (reasons.empty() && act.must_be_whole)
            if (const auto accepted = accept(draft, context); !accepted)
                for (auto refusal : accepted.refusals()) {
                    refusal.field = fmt::format("{}, {}", lot.where, refusal.field);
                    reasons.push_back(std::move(refusal));
                }
        if (reasons.empty())
            judged.good.push_back(std::move(draft));
        append(judged.against_others, reasons);
    }
    return judged;
}

/// The certificate kept and the words learned, in one change; where both were known before, nothing.
CertificateSourceId keep(State& state, const Mill& mill, const std::vector<MillWord>& words) {
    CertificateSourceStore sources(*state.connection);
    const auto& source = state.certificate.source;
    if (const auto known = sources.find(source.bytes); known && words.empty())
        return *known;
    auto sentence = fmt::format("Certificate {} of {} kept", source.name, mill.name);
    if (!words.empty())
        sentence += fmt::format("; {} of this mill learned", counted(words.size(), "word", "words"));
    Change change = state.change("confirm_certificate", {"mill " + mill.name, record_of(mill.id)}, sentence);
    for (const auto& word : words) {
        change.journal_line().detail += (change.journal_line().detail.empty() ? "" : "\n") + in_words(word);
        MillWordStore(*state.connection).keep(change, word);
    }
    change.touches(record_of(mill.id));
    const auto id = sources.keep(change, source);
    change.commit();
    return id;
}

/// What takes back that these words were learned.
ChangeMillWords unlearning(const Book& book, MillId mill, const std::vector<MillWord>& words) {
    ChangeMillWords act{mill, {}};
    for (const auto& word : words) {
        const auto* before = word_in(book, word);
        act.changes.push_back({word, before ? std::optional(*before) : std::nullopt});
    }
    return act;
}

/// The lots go to the delivery; nothing is looked at any more.
void hand_over(State& state, std::vector<LotDraft> lots, CertificateSourceId source, Refusals left_out) {
    for (auto& draft : lots)
        draft.certificate_source = as_text(SourceName{source, {}, 0});
    state.intake.read_drafts = std::move(lots);
    state.intake.file_notes = state.certificate.reading.notes;
    state.intake.file_refusals = std::move(left_out);
    ++state.intake.reading;
    state.certificate.put_aside();
    show_certificate(state);
}

exchange::LabelMeaning meaning_of(const LabelSaid& said, const CertificateModel& shown) {
    const auto at = std::find_if(shown.labels.begin(), shown.labels.end(),
                                 [&](const CertificateLabel& one) { return one.key == said.label; });
    return {said.label,
            at == shown.labels.end() ? said.label : at->shown,
            said.means,
            said.unit,
            basis_as_kept(said.basis),
            std::string(trimmed(said.method)),
            std::string(trimmed(said.nitrogen_factor))};
}

} // namespace

Result<Told> carry_out(State& state, const ReadCertificateFile& act) {
    auto source = read_source(act.path);
    if (!source)
        return source.refusals();
    if (!has_our_heads(source->bytes))
        return begin(state, *std::move(source), act.path, act.defaults);
    const auto file = read_our_file(state, act.path, act.defaults);
    if (!file)
        return file.refusals();
    if (!file->refused.empty())
        return with_line_numbers(file->refused);
    state.intake.read_drafts.clear();
    for (const auto& line : file->lines)
        state.intake.read_drafts.push_back(line.draft);
    ++state.intake.reading;
    return Told{fmt::format("{} lots read from {}; nothing is taken in yet", state.intake.read_drafts.size(),
                            act.path)};
}

Result<Told> carry_out(State& state, const ReadPastedCertificate& act) {
    if (trimmed(act.text).empty())
        return Refusal{"Pasted text", "is empty", "Paste the certificate's text"};
    CertificateSource source;
    source.name = "Pasted text";
    source.is_pasted = true;
    source.bytes = act.text;
    return begin(state, std::move(source), "", act.defaults);
}

Result<Told> take_certificate(State& state) {
    const auto tables = state.certificate.finish();
    if (!tables) {
        state.certificate.put_aside();
        show_certificate(state);
        return tables.refusals();
    }
    understand_certificate(state);
    return Told{read_in_words(state)};
}

void understand_certificate(State& state) {
    if (state.certificate.is_open)
        state.certificate.understand(state.book);
    show_certificate(state);
}

Result<Told> carry_out(State& state, const UnderstandCertificate& act) {
    auto& at_hand = state.certificate;
    if (!at_hand.is_open)
        return not_read();
    Refusals refusals;
    for (const auto& label : act.said.labels)
        append(refusals, against(label));
    if (!refusals.empty())
        return refusals;
    if (!act.said.mill.empty())
        at_hand.defaults.mill = act.said.mill;
    at_hand.of_lot = act.of_lot;
    at_hand.corrected.clear();
    for (const auto& label : act.said.labels)
        at_hand.corrected.push_back(meaning_of(label, state.intake.certificate));
    at_hand.answers.clear();
    for (const auto& answer : act.said.answers)
        at_hand.answers.push_back({answer.question, answer.answer});
    understand_certificate(state);
    return Told{};
}

Result<Told> carry_out(State& state, const ConfirmCertificate& act) {
    const auto& at_hand = state.certificate;
    if (!at_hand.is_open)
        return not_read();
    if (act.made != at_hand.made)
        return Refusal{"Certificate", "is understood otherwise than it was shown", "Look at it once more"};
    if (!at_hand.reading.troubles.empty())
        return at_hand.reading.troubles;
    if (at_hand.reading.lots.empty())
        return Refusal{"Certificate", "no lot was found in it", "Type the lot instead"};
    const Mill* mill = state.book.mill(at_hand.mill);
    if (!mill)
        return Refusal{"Mill", "is not said, and the certificate does not say it",
                       "Choose the mill: what its words mean is kept with it"};
    auto judged = judge_lots(state, act);
    if (judged.good.empty() ||
        (!judged.against_others.empty() && act.faulty_lots == FaultyLines::take_nothing))
        return judged.against_others;
    const auto words = learned_from(at_hand.reading.mapping, state.book, mill->id);
    const auto unlearn = unlearning(state.book, mill->id, words);
    const auto id = keep(state, *mill, words);
    auto told = fmt::format("{} of {} handed to the delivery; nothing is taken in yet",
                            counted(judged.good.size(), "lot", "lots"), at_hand.source.name);
    if (const auto left = at_hand.reading.lots.size() - judged.good.size(); left > 0)
        told += fmt::format("; {} left out", counted(left, "lot", "lots"));
    hand_over(state, std::move(judged.good), id, std::move(judged.against_others));
    if (words.empty())
        return Told{told};
    told += fmt::format("; {} of {} learned", counted(words.size(), "word", "words"), mill->name);
    return Told{told, Touched::nothing, fmt::format("Undo: unlearn the words of {}", mill->name), {unlearn}};
}

Result<Told> carry_out(State& state, const PutCertificateAside&) {
    state.certificate.put_aside();
    show_certificate(state);
    return Told{};
}

} // namespace mellowbin::app
