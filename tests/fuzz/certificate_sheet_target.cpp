#include "exchange/certificate_paper.h"
#include "exchange/certificate_sheet.h"
#include "exchange/laid_out_text.h"
#include "fuzz/sheet_checks.h"
#include "fuzz/sound_lot.h"
#include "fuzz/target.h"
#include "support/good_lot.h"

#include <algorithm>
#include <set>

namespace mellowbin::fuzz {
namespace {

using namespace exchange;

CertificateRequest a_request() {
    CertificateRequest request;
    request.defaults = {"Weir Mill", "Bread flour", "Bay 1", "2026-11-20"};
    request.mills = {"Weir Mill", "Ridge Mill"};
    request.flours = {"Bread flour", "Wholemeal flour"};
    return request;
}

void expect_sound(const CertificateQuestion& question) {
    expect(!question.key.empty() && !question.words.empty(), "a question has a key and words");
    for (const auto& words : {question.key, question.words, question.where, question.source_label})
        expect_text(words);
    expect(question.times > 0, "a question waits for a value");
    std::set<std::string> keys;
    for (const auto& choice : question.choices) {
        expect(keys.insert(choice.key).second, "a question has each choice once");
        expect_text(choice.words);
    }
}

/// What refers to something refers to what is there.
void expect_whole(const CertificateReading& reading) {
    std::set<std::string> asked;
    for (const auto& question : reading.questions) {
        expect_sound(question);
        expect(asked.insert(question.key).second, "a question is asked once");
    }
    const auto are_asked = [&](const std::vector<std::string>& keys) {
        return std::all_of(keys.begin(), keys.end(), [&](const auto& key) { return asked.contains(key); });
    };
    for (const auto& value : reading.values) {
        expect(value.lot == every_lot || value.lot < reading.lots.size(), "a value is of a lot");
        expect(are_asked(value.questions), "what a value waits for is asked");
        expect(!value.where.empty(), "a value says where it stands");
        for (const auto& words : {value.value, value.source_text, value.source_line, value.note, value.where})
            expect_text(words);
    }
    for (const auto& lot : reading.lots)
        expect(are_asked(lot.questions), "what a lot waits for is asked");
    for (const auto& left_out : reading.left_out) {
        expect(!left_out.why.empty(), "what is left out is said, and why");
        for (const auto& words : {left_out.where, left_out.label, left_out.text, left_out.why})
            expect_text(words);
    }
    for (const auto& note : reading.notes)
        expect_text(note);
    expect(!reading.lots.empty() || !reading.troubles.empty(), "a paper without a lot is in trouble");
}

void expect_sound(const CertificateReading& reading, std::string_view bytes) {
    expect_whole(reading);
    const testing::SmallPlant plant;
    const auto good = accept_reading(reading, plant.context(), OnRefusedLine::take_the_good);
    const auto whole = accept_reading(reading, plant.context(), OnRefusedLine::take_nothing);
    if (!good.refused.empty())
        expect_well_said(good.refused, bytes);
    expect(whole.lots.size() == (whole.refused.empty() ? reading.lots.size() : 0), "all lots or none");
    expect(reading.troubles.empty() || good.lots.empty(), "no lot is taken from a paper in trouble");
    for (const auto& one : good.lots) {
        const auto& lot = reading.lots.at(one.lot);
        expect(lot.refusals.empty() && lot.questions.empty(), "a lot that is taken leaves nothing open");
        fuzz::expect_sound(one.accepted, plant.today);
    }
}

/// The first choice for what has choices, and what may fit for the rest.
std::vector<CertificateAnswer> answers_to(const CertificateReading& reading) {
    std::vector<CertificateAnswer> answers;
    for (const auto& question : reading.questions) {
        const char* typed = question.kind == QuestionKind::basis  ? "14 % moisture"
                            : question.kind == QuestionKind::unit ? "%"
                                                                  : "ISO 712-1";
        answers.push_back({question.key, question.choices.empty() ? typed : question.choices.front().key});
    }
    return answers;
}

void look_at(const std::vector<Sheet>& sheets, std::string_view bytes) {
    auto request = a_request();
    const auto reading = understand(sheets, request);
    expect_sound(reading, bytes);
    request.answers = answers_to(reading);
    if (!request.answers.empty()) {
        const auto answered = understand(sheets, request);
        expect_sound(answered, bytes);
        for (const auto& question : reading.questions)
            expect(question.choices.empty() ||
                       std::none_of(answered.questions.begin(), answered.questions.end(),
                                    [&](const auto& still) { return still.key == question.key; }),
                   "what was answered by one of its choices is not asked again");
    }
    request.must_be.lot = "N-1";
    const auto of_one = understand(sheets, request);
    expect_sound(of_one, bytes);
    expect(!of_one.troubles.empty() || of_one.lots.size() == 1, "of the lot asked for, or in trouble");
}

void take(std::string_view bytes) {
    const auto limits = low_limits();
    const auto paper = read_paper(bytes, limits);
    if (!paper)
        return expect_well_said(paper.refusals(), bytes);
    look_at(*paper, bytes);
    if (auto pages = read_laid_out_text(bytes, SheetKind::pages, limits))
        look_at({std::move(*pages)}, bytes);
    auto as_spreadsheet = *paper;
    for (auto& sheet : as_spreadsheet)
        sheet.kind = SheetKind::spreadsheet;
    look_at(as_spreadsheet, bytes);
}

const Registered target{"certificate_sheet", take};

} // namespace
} // namespace mellowbin::fuzz
