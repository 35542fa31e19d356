#include "ui/views/intake/kept.h"

#include "app/acts/certificates.h"
#include "ui/views/common/keep_drafts.h"
#include "ui/views/common/words.h"

#include <algorithm>
#include <map>

namespace mellowbin::views {

// A KeptWriter finds them by its own namespace.

void keep(auto& k, Kind<DeliveryLine> auto& line) {
    auto& [number, draft, basis, own_basis, left, all_left, scanned, expected, against, answered, refusals,
           doubts, judged, is_checked, is_from_file] = line;
    k("number", number);
    k("draft", draft);
    k("basis", basis);
    k("own_basis", own_basis);
    k("left", left);
    k("all_left", all_left);
    k("scanned", scanned);
    k("expected", expected);
    k("is_from_file", is_from_file);
}

void keep(auto& k, Kind<BegunHold> auto& hold) {
    auto& [delivery, count] = hold;
    k("delivery", delivery);
    k("hold", count);
}

void keep(auto& k, Kind<DeliveryForm> auto& form) {
    auto& [draft, by_order, filled, joins, in_already, begun, left, all_left, shows_more, answered, refusals,
           weights] = form;
    k("draft", draft);
    k("by_order", by_order);
    k("filled", filled);
    k("joins", joins);
    std::int64_t grams = in_already.count();
    k("in_already_g", grams);
    if constexpr (!std::remove_reference_t<decltype(k)>::writes)
        in_already = Grams{grams};
    k("begun", begun);
    k("left", left);
    k("all_left", all_left);
    k("shows_more", shows_more);
}

void keep(auto& k, Kind<DoorFinding> auto& finding) {
    auto& [line, bags, note] = finding;
    k("line", line);
    k("bags", bags);
    k("note", note);
}

void keep(auto& k, Kind<DoorQuestion> auto& check) {
    auto& [question, answer, findings] = check;
    k("question", question);
    k("answer", answer);
    k("findings", findings);
}

void keep(auto& k, Kind<app::LabelSaid> auto& said) {
    auto& [label, means, unit, basis, method, nitrogen_factor] = said;
    k("label", label);
    k("means", means);
    k("unit", unit);
    k("basis", basis);
    k("method", method);
    k("nitrogen_factor", nitrogen_factor);
}

void keep(auto& k, Kind<AnswerGiven> auto& given) {
    auto& [question, words, answer, answer_words] = given;
    k("question", question);
    k("words", words);
    k("answer", answer);
    k("answer_words", answer_words);
}

void keep(auto& k, Kind<CertificateForm> auto& form) {
    auto& [is_pasting, pasted, path, mill, labels, answers, typing, changing, pasting, understanding,
           confirming, opened_seen, made_seen, is_resumed, shows_every_value, lots, values, wants_focus] =
        form;
    k("is_pasting", is_pasting);
    k("pasted", pasted);
    k("path", path);
    k("mill", mill);
    k("labels", labels);
    k("answers", answers);
    k("typing", typing);
}

namespace {

bool is_begun(const CertificateForm& form) { return !form.pasted.empty() || !form.said_is_empty(); }

bool is_answered(const DoorQuestion& check) {
    return check.answer != name_of(DoorAnswer::not_looked_at) ||
           std::any_of(check.findings.begin(), check.findings.end(),
                       [](const DoorFinding& one) { return !(one.bags + one.note).empty(); });
}

bool is_answered(const DoorForm& door) {
    return std::any_of(door.checks.begin(), door.checks.end(),
                       [](const DoorQuestion& check) { return is_answered(check); });
}

/// Where none stands yet: the lots that a "no" is about are numbered anew.
void take_up_door(DoorForm& door, std::vector<DoorQuestion> checks,
                  const std::map<std::int64_t, std::int64_t>& numbers) {
    for (auto& check : checks) {
        for (auto& finding : check.findings)
            if (const auto at = numbers.find(finding.line); at != numbers.end())
                finding.line = at->second;
        if (check.findings.empty())
            check.findings = {DoorFinding()};
        const auto now = std::find_if(door.checks.begin(), door.checks.end(), [&](const DoorQuestion& one) {
            return one.question == check.question;
        });
        if (now == door.checks.end())
            door.checks.push_back(std::move(check));
        else if (!is_answered(*now))
            *now = std::move(check);
    }
}

/// A file is read again, and what was said of it is said again; what was pasted stands in its field.
void take_up_certificate(KeptReader& k, IntakeView& view, app::Intents& out) {
    auto& form = view.certificate;
    k("certificate", form);
    form.is_resumed = !form.said_is_empty();
    if (!form.path.empty())
        out.emplace_back(app::ReadCertificateFile{form.path, defaults_of(view.delivery)});
    else if (form.is_resumed)
        out.emplace_back(app::ReadPastedCertificate{form.pasted, defaults_of(view.delivery)});
    else
        form.is_pasting = true;
}

/// Lines are numbered anew.
void take_up_form(DeliveryForm& form, DeliveryForm kept,
                  const std::map<std::int64_t, std::int64_t>& numbers) {
    if (!form.is_untouched() || form.begun.is_held())
        return;
    std::set<std::int64_t> filled;
    for (const auto line : kept.filled)
        if (const auto at = numbers.find(line); at != numbers.end())
            filled.insert(at->second);
    kept.filled = std::move(filled);
    form = std::move(kept);
}

} // namespace

bool is_begun(const IntakeView& view) {
    const auto& lines = view.delivery.lines();
    const auto has_note = [](const DeliveryLine& line) { return !line.draft.delivery_note.empty(); };
    return !view.delivery.filled().empty() || !view.scanned.empty() || is_answered(view.door) ||
           !view.form.is_untouched() || std::any_of(lines.begin(), lines.end(), has_note);
}

void keep_begun(KeptWriter& k, const IntakeView& view) {
    if (is_begun(view.certificate)) {
        k.begun("a certificate");
        k("certificate", view.certificate);
    }
    if (!is_begun(view))
        return;
    const auto lots = view.delivery.filled().size();
    k.begun(lots == 0 ? std::string("a delivery") : "a delivery of " + counted(lots, "lot", "lots"));
    k("lots", view.delivery.lines());
    k("at_hand", view.delivery.at_hand().number);
    k("scanned", view.scanned);
    k("door", view.door.checks);
    k("whole", view.form);
    k("shows_head", view.shows_head);
}

void take_up(KeptReader& k, IntakeView& view, app::Intents& out) {
    if (k.has("certificate") && !is_begun(view.certificate))
        take_up_certificate(k, view, out);
    std::vector<DeliveryLine> lines;
    std::int64_t at_hand = 0;
    std::vector<DoorQuestion> checks;
    k("lots", lines);
    k("at_hand", at_hand);
    k("door", checks);
    DeliveryForm form;
    k("whole", form);
    k("shows_head", view.shows_head);
    if (view.scanned.empty())
        k("scanned", view.scanned);
    const auto numbers = view.delivery.take_up_kept(std::move(lines), at_hand);
    take_up_door(view.door, std::move(checks), numbers);
    take_up_form(view.form, std::move(form), numbers);
    view.list.show_selected = true;
    view.wants_focus = true;
}

} // namespace mellowbin::views
