#include "app/acts/looking.h"
#include "app/acts/plant_records.h"
#include "app/models/journal.h"
#include "two_mills.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::TwoMills;

namespace {

struct Complained : TwoMills {
    LotId lot = came("W24-118", "2026-11-20", "11", "300");
    ComplaintDraft draft() const {
        return {"w24-118", "Protein", "", "lower than ordered", "1000", "2026-11-21"};
    }
    /// Of the newest, in the mill's record.
    ComplaintRow row() { return record().complaints.front(); }
    ComplaintId logged() {
        done(LogComplaint{mill(), draft()});
        return row().id;
    }
};

} // namespace

TEST_CASE("A complaint is logged, stands open in the mill's record and in the lot's history, and is undone") {
    Complained at;
    at.done(LogComplaint{at.mill(), at.draft()});
    CHECK(at.said() == "Complaint to Mill: Protein, lot W24-118, 1000 kg: lower than ordered");
    const auto line = at.app().journal(2).front();
    CHECK(line.act == "Complaint logged");
    CHECK(line.who == "Tomas");
    CHECK(at.record().open == 1);
    CHECK(at.record().answered == 0);
    const auto row = at.row();
    CHECK(row.is_open);
    CHECK(row.lot == "W24-118");
    CHECK(row.kg == Approx(1000));
    CHECK_THAT(row.noticed, Contains("Noticed 2026-11-21") && Contains("Tomas"));
    at.app().handle(OpenLot{at.lot});
    const auto& history = at.app().lots().opened->history;
    CHECK(std::any_of(history.begin(), history.end(), [](const JournalRow& one) {
        return one.words.find("Complaint to Mill") != std::string::npos;
    }));
    at.done(LogComplaint{at.mill(), {"", "", "Bags", "wet", "", ""}});
    CHECK(at.app().notice().undo == "Undo: withdraw the complaint");
    at.undo();
    CHECK(at.record().open == 1);
    CHECK(at.record().complaints.size() == 2); // withdrawn, and still to be read
    CHECK(at.record("", "", 0, "Ridge Mill").complaints.empty());
}

TEST_CASE("A complaint that cannot be is refused with every reason, and nothing is written") {
    Complained at;
    const auto lines = at.app().journal(100).size();
    at.refused(LogComplaint{at.mill(), {"W24-999", "", "", "", "-1", "2026-12-01"}});
    CHECK_THAT(at.refusals(), Contains("Lot: Mill has no lot \"W24-999\"") && Contains("Subject: ") &&
                                  Contains("Complaint: ") && Contains("Weight: ") &&
                                  Contains("Noticed on: "));
    auto of_other = at.draft();
    at.refused(LogComplaint{at.mill("Ridge Mill"), of_other}); // the lot is the other mill's
    CHECK_THAT(at.refusals(), Contains("Ridge Mill has no lot"));
    at.refused(LogComplaint{MillId{99}, at.draft()});
    CHECK(at.app().journal(100).size() == lines);
}

TEST_CASE("An answer closes a complaint; taken back it is open again, and that is undone, too") {
    Complained at;
    const auto id = at.logged();
    at.refused(AnswerComplaint{id, {"", "2026-11-20"}});
    CHECK_THAT(at.refusals(), Contains("Answer: is empty") && Contains("before it was noticed"));
    at.done(AnswerComplaint{id, {"other wheat in the grist", "2026-11-24"}});
    CHECK_THAT(at.said(), Contains("Mill answered the complaint") && Contains("other wheat"));
    CHECK(at.record().open == 0);
    CHECK(at.record().answered == 1);
    CHECK(at.row().answered_on == day_from_iso("2026-11-24"));
    CHECK_THAT(at.row().answer, Contains("Answered 2026-11-24: other wheat in the grist"));
    at.refused(AnswerComplaint{id, {"again", ""}});
    CHECK_THAT(at.refusals(), Contains("was answered on 2026-11-24"));
    at.done(AnswerComplaint{at.logged(), {"sorry", ""}});
    CHECK(at.app().notice().undo == "Undo: it is not answered");
    at.undo(); // the second one's
    CHECK(at.record().open == 1);
    at.undo(); // answered as before
    CHECK(at.record().open == 0);
    at.refused(TakeBackAnswer{id, ""});
    at.done(TakeBackAnswer{id, "meant for another"});
    CHECK(at.record().open == 1);
    at.refused(TakeBackAnswer{id, "once more"});
}

TEST_CASE("A complaint is withdrawn with a reason, once, and counts no more") {
    Complained at;
    const auto id = at.logged();
    at.refused(WithdrawComplaint{id, " "});
    at.done(WithdrawComplaint{id, "our scale was off"});
    CHECK_THAT(at.said(), Contains("withdrawn") && Contains("our scale was off"));
    CHECK(at.record().open == 0);
    CHECK(at.row().is_withdrawn);
    at.refused(WithdrawComplaint{id, "again"});
    at.refused(AnswerComplaint{id, {"too late", ""}});
    at.refused(WithdrawComplaint{ComplaintId{99}, "x"});
}

TEST_CASE("A complaint that is open is in the record whatever days are asked for; an answered one is not") {
    Complained at;
    const auto id = at.logged();
    CHECK(at.record("2026-01-01", "2026-02-01").complaints.size() == 1);
    at.done(AnswerComplaint{id, {"sorry", ""}});
    CHECK(at.record("2026-01-01", "2026-02-01").complaints.empty());
    CHECK(at.record().complaints.size() == 1);
}

TEST_CASE("A mill that was complained about is not taken off the plant") {
    Complained at;
    at.done(LogComplaint{at.mill("Ridge Mill"), {"", "", "Papers", "never sent", "", ""}});
    at.refused(RemovePlantRecord{{PlantKind::mill, at.mill("Ridge Mill").number()}});
    CHECK_THAT(at.refusals(), Contains("1 complaints"));
}
