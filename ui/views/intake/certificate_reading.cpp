#include "ui/views/intake/certificate_reading.h"

#include "app/acts/certificates.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

constexpr ui::Length foot_height = 6_em;
constexpr std::string_view pasted_label = "Text of the certificate";

void say(CertificateForm& form, const app::Notice& notice, app::Intents& out) {
    form.understanding.ask(notice);
    out.emplace_back(app::UnderstandCertificate{form.said()});
}

/// What came since the last frame: another certificate is open, one was handed over or put aside.
void follow(CertificateForm& form, const app::CertificateModel& certificate, const app::Notice& notice,
            app::Intents& out) {
    form.pasting.take_answer(notice);
    form.understanding.take_answer(notice);
    if (form.confirming.is_done(notice)) {
        form.forget_said();
        form.pasted.clear();
        form.path.clear();
        form.is_pasting = false;
    }
    if (std::exchange(form.made_seen, certificate.made) != certificate.made)
        form.understanding = {}; // what is shown is the answer
    if (!certificate.is_open || certificate.opened == form.opened_seen)
        return;
    form.opened_seen = certificate.opened;
    if (std::exchange(form.is_resumed, false))
        say(form, notice, out);
    else
        form.forget_said();
}

void draw_paste(CertificateForm& form, const Delivery& delivery, const app::Notice& notice,
                app::Intents& out) {
    ui::form("Pasted certificate", [&] {
        ui::filling_panel("Paste a certificate", [&] {
            ui::hint("Copy it from a mail, a page or a spreadsheet, with its heads, and paste it here: "
                     "Ctrl+V.");
            if (std::exchange(form.wants_focus, false))
                ui::focus(pasted_label);
            ui::text_area({.label = pasted_label}, form.pasted,
                          {std::max(8.0F, ui::height_left().ems - foot_height.ems - 3)});
            ui::all_refusals(form.pasting.refusals);
            ui::flow([&] {
                const std::string_view blocked = form.pasting.is_waiting() ? "is being read"
                                                 : form.pasted.empty()     ? "nothing is pasted yet"
                                                                           : "";
                if (ui::button("Read it", {.kind = ui::ButtonKind::primary, .blocked = blocked})) {
                    form.path.clear();
                    form.pasting.ask(notice);
                    out.emplace_back(app::ReadPastedCertificate{form.pasted, defaults_of(delivery)});
                }
                if (ui::button("Back to the delivery", {.kind = ui::ButtonKind::quiet}))
                    form.is_pasting = false;
                if (!form.pasted.empty() && ui::button("Empty it", {.kind = ui::ButtonKind::quiet}))
                    form.pasted.clear();
            });
        });
    });
}

void draw_progress(const app::CertificateModel& certificate, app::Intents& out) {
    ui::panel("", [&] {
        if (ui::progress({.label = "Reading the certificate", .words = certificate.name}))
            out.emplace_back(app::PutCertificateAside{});
    });
}

/// Another certificate than the delivery's, perhaps: a person sees it.
void note_other_lots(const Delivery& delivery, const app::CertificateModel& certificate) {
    const auto& lines = delivery.lines();
    const bool has_numbers = std::any_of(lines.begin(), lines.end(),
                                         [](const DeliveryLine& line) { return !line.draft.code.empty(); });
    const bool has_one = std::any_of(certificate.lots.begin(), certificate.lots.end(),
                                     [&](const auto& lot) { return delivery.has(lot.code); });
    if (has_numbers && !has_one && !certificate.lots.empty())
        ui::status(Role::mind,
                   "None of its lots is on the delivery's list: is it this delivery's certificate?");
}

/// True when another mill was chosen.
bool head(CertificateForm& form, const Delivery& delivery, const app::IntakeModel& model) {
    const auto& certificate = model.certificate;
    bool is_said = false;
    ui::text("Certificate as it was read", {.size = ui::TextSize::heading, .weight = ui::Weight::bold});
    auto mill = certificate.mill;
    ui::flow([&] {
        ui::stack(20_em, [&] {
            ui::paragraph(certificate.name, {.weight = ui::Weight::bold});
            ui::hint(counted(certificate.lots.size(), "lot", "lots") +
                     (certificate.asked.empty()
                          ? std::string(", nothing is asked")
                          : ", " + counted(certificate.asked.size(), "thing is asked", "things are asked")));
        });
        if (name_choice({.label = "Mill", .hint = "whose words are they?", .width = 16_em}, model.mills,
                        mill)) {
            form.mill = mill;
            is_said = true;
        }
    });
    for (const auto& words : certificate.notes)
        ui::status(Role::mind, words);
    note_other_lots(delivery, certificate);
    ui::all_refusals(certificate.troubles);
    return is_said;
}

/// What was answered is asked no more; here it is asked again.
bool answers_given(CertificateForm& form) {
    if (form.answers.empty())
        return false;
    std::optional<std::size_t> again;
    ui::part("What you answered");
    for (std::size_t i = 0; i < form.answers.size(); ++i)
        ui::scope(form.answers[i].question, [&] {
            ui::flow([&] {
                ui::text(fmt::format("{} {}", form.answers[i].words, form.answers[i].answer_words));
                if (ui::button("Ask it again", {.kind = ui::ButtonKind::quiet}))
                    again = i;
            });
        });
    if (again)
        form.answers.erase(form.answers.begin() + static_cast<std::ptrdiff_t>(*again));
    return again.has_value();
}

void confirm(CertificateForm& form, const app::CertificateModel& certificate, app::FaultyLines faulty,
             const app::Notice& notice, app::Intents& out) {
    form.confirming.ask(notice);
    out.emplace_back(app::ConfirmCertificate{certificate.made, faulty});
}

std::string_view blocked_by(const CertificateForm& form, const app::CertificateModel& certificate) {
    if (form.confirming.is_waiting())
        return "is being kept";
    if (!certificate.troubles.empty())
        return "it cannot be kept as it is";
    if (certificate.mill.empty())
        return "choose the mill first";
    return certificate.good == 0 ? "no lot of it is without a question or a fault" : "";
}

void foot(CertificateForm& form, const app::CertificateModel& certificate, const app::Notice& notice,
          app::Intents& out) {
    const auto lots = certificate.lots.size();
    const bool is_part = certificate.good > 0 && certificate.good < lots;
    const auto blocked = blocked_by(form, certificate);
    if (certificate.to_learn > 0 && blocked.empty())
        ui::hint(fmt::format("{} of {} will be remembered for the next certificate.",
                             counted(certificate.to_learn, "word", "words"), certificate.mill));
    ui::flow([&] {
        const auto label = is_part     ? fmt::format("Take the good ones, {} of {}", certificate.good, lots)
                           : lots == 1 ? std::string("Take this lot over")
                                       : fmt::format("Take these {} lots over", lots);
        const auto faulty = is_part ? app::FaultyLines::leave_out : app::FaultyLines::take_nothing;
        if (ui::button(label, {.kind = ui::ButtonKind::primary, .blocked = blocked}))
            confirm(form, certificate, faulty, notice, out);
        if (ui::button("Put it aside", {.kind = ui::ButtonKind::quiet})) {
            form.forget_said();
            form.path.clear();
            form.is_pasting = !form.pasted.empty(); // what was pasted is still there
            out.emplace_back(app::PutCertificateAside{});
        }
    });
}

} // namespace

app::CertificateSaid CertificateForm::said() const {
    app::CertificateSaid all{mill, labels, {}};
    for (const auto& given : answers)
        all.answers.push_back({given.question, given.answer});
    return all;
}

void CertificateForm::forget_said() {
    mill.clear();
    labels.clear();
    answers.clear();
    typing.clear();
    changing.clear();
    understanding.refusals.clear();
    confirming.refusals.clear();
}

bool CertificateForm::said_is_empty() const {
    return mill.empty() && labels.empty() && answers.empty() &&
           std::all_of(typing.begin(), typing.end(), [](const auto& one) { return one.answer.empty(); });
}

std::string& CertificateForm::typed(const std::string& question) {
    const auto at = std::find_if(typing.begin(), typing.end(),
                                 [&](const AnswerGiven& one) { return one.question == question; });
    return at == typing.end() ? typing.emplace_back(AnswerGiven{question, "", "", ""}).answer : at->answer;
}

LotDraft defaults_of(const Delivery& delivery) {
    LotDraft defaults;
    const auto& at_hand = delivery.at_hand().draft;
    defaults.mill = at_hand.mill;
    defaults.flour = at_hand.flour;
    defaults.place = at_hand.place;
    defaults.delivered_on = at_hand.delivered_on;
    return defaults;
}

bool draw(CertificateForm& form, const Delivery& delivery, const app::IntakeModel& model,
          const app::Notice& notice, app::Intents& out) {
    const auto& certificate = model.certificate;
    follow(form, certificate, notice, out);
    if (certificate.is_reading) {
        draw_progress(certificate, out);
        return true;
    }
    if (!certificate.is_open) {
        if (form.is_pasting)
            draw_paste(form, delivery, notice, out);
        return form.is_pasting;
    }
    ui::keep_clear_below(foot_height);
    bool is_said = false;
    ui::form("Certificate", [&] {
        ui::filling_panel("", [&] {
            ui::scroll_area("As it was read", {std::max(8.0F, ui::height_left().ems - foot_height.ems)}, [&] {
                is_said |= head(form, delivery, model);
                is_said |= certificate_lines(form, certificate, model.bases);
                is_said |= answers_given(form);
                certificate_values(form, certificate);
                ui::all_refusals(form.confirming.refusals);
            });
            foot(form, certificate, notice, out);
        });
    });
    if (is_said)
        say(form, notice, out);
    return true;
}

} // namespace mellowbin::views
