#include "app/acts/mills.h"
#include "app/acts/notice.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/plant.h"
#include "cli/aging_as_json.h"
#include "cli/grammar.h"
#include "cli/mill_as_text.h"
#include "cli/say.h"

#include <fmt/format.h>

#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

MillId mill_of(const App& app, const std::string& name) {
    std::string names;
    for (const auto& row : app.plant().of(PlantKind::mill)) {
        if (row.name == name)
            return MillId{row.record.number};
        names += (names.empty() ? "" : ", ") + row.name;
    }
    throw Failed{fmt::format("Mill: \"{}\" is not known. Choose one of: {}", name, names)};
}

struct RecordTyped {
    std::string mill, from, to;
    int page = 1;
};

int show_record(Session& session, const RecordTyped& typed) {
    App app(session.set_up());
    app.handle(ShowMillRecord{mill_of(app, typed.mill), typed.from, typed.to, typed.page - 1});
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    if (session.wants_json())
        session.out() << mill_record_as_json(*app.plant().mill_record);
    else
        print_mill_record(session.out(), *app.plant().mill_record);
    return done;
}

/// What was done with a complaint, and its number.
int told_of_complaint(const Session& session, const App& app, std::int64_t number) {
    if (const int code = session.told_if_wrong(app); code != done || !session.wants_json())
        return session.told(app);
    session.out() << act_as_json(app.notice().words, "complaint", number);
    return done;
}

struct ComplaintTyped {
    std::string mill;
    ComplaintDraft complaint;
};

int log_complaint(Session& session, const ComplaintTyped& typed) {
    App app(session.set_up());
    app.handle(LogComplaint{mill_of(app, typed.mill), typed.complaint});
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    const auto number = app.notice().undoing.front().as<WithdrawComplaint>()->complaint.number();
    const int code = told_of_complaint(session, app, number);
    if (!session.wants_json())
        say(session.out(), "Its number is {}; mellowbin withdraw-complaint {} takes it back\n", number,
            number);
    return code;
}

struct AnswerTyped {
    std::int64_t number = 0;
    ComplaintAnswerDraft answer;
};

int answer_complaint(Session& session, const AnswerTyped& typed) {
    App app(session.set_up());
    app.handle(AnswerComplaint{ComplaintId{typed.number}, typed.answer});
    return told_of_complaint(session, app, typed.number);
}

struct TakenBack {
    std::int64_t number = 0;
    std::string reason;
};

/// A complaint withdrawn, or an answer to one taken back.
template <class Act> int take_back(Session& session, const TakenBack& typed) {
    App app(session.set_up());
    app.handle(Act{ComplaintId{typed.number}, typed.reason});
    return told_of_complaint(session, app, typed.number);
}

template <class Act> void add_take_back(Grammar& grammar, const char* name, const char* what) {
    auto [words, typed] = grammar.command(name, what, take_back<Act>);
    words.option("number", typed.number, "Its number, as mellowbin mill-record shows it").required();
    words.option("--reason", typed.reason, "In a few words").required();
}

} // namespace

void add_mill_commands(Grammar& grammar) {
    auto record = grammar.command("mill-record",
                                  "A mill's lots, tests, deliveries, returns and complaints over some days",
                                  show_record);
    record.words.option("mill", record.typed.mill, "Its name").required();
    record.words.option("--from", record.typed.from, "First day; otherwise a year before the last");
    record.words.option("--to", record.typed.to, "Last day; otherwise today");
    record.words.option("--page", record.typed.page, "Of its lots, 20 each").within(1, 1'000'000);
    auto complaint = grammar.command("log-complaint", "Hold something against a mill", log_complaint);
    complaint.words.option("mill", complaint.typed.mill, "Its name").required();
    complaint.words.option("--words", complaint.typed.complaint.words, "What it is, in a few words")
        .required();
    complaint.words.option("--property", complaint.typed.complaint.property,
                           "That it is about, as a laboratory reports it");
    complaint.words.option("--subject", complaint.typed.complaint.subject, "Or a word: bags, weight, papers");
    complaint.words.option("--lot", complaint.typed.complaint.lot, "A lot number of the mill");
    complaint.words.option("--kg", complaint.typed.complaint.kg, "How much flour it is about");
    complaint.words.option("--noticed-on", complaint.typed.complaint.noticed_on, "Otherwise today");
    auto answer = grammar.command("answer-complaint", "Write down how a mill answered", answer_complaint);
    answer.words.option("number", answer.typed.number, "Its number, as mellowbin mill-record shows it")
        .required();
    answer.words.option("--words", answer.typed.answer.words, "What the mill said").required();
    answer.words.option("--on", answer.typed.answer.answered_on, "When; otherwise today");
    add_take_back<TakeBackAnswer>(grammar, "take-back-answer", "A complaint is open again");
    add_take_back<WithdrawComplaint>(grammar, "withdraw-complaint",
                                     "Take a complaint back; it stays on record");
}

} // namespace mellowbin::cli
