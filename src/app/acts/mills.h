#pragma once

#include "app/acts/act.h"
#include "core/complaint.h"

#include <string>

/// What is known of mills: their record, and what the plant held against them.
namespace mellowbin::app {

/// The record of a mill over a span of days, as typed; a mill that is not known puts the record away.
struct ShowMillRecord {
    MillId mill;
    std::string from, to; ///< both included; empty: the twelve months up to today
    int page = 0;         ///< of its table of lots
};

struct LogComplaint {
    MillId mill;
    ComplaintDraft complaint;
};
struct AnswerComplaint {
    ComplaintId complaint;
    ComplaintAnswerDraft answer;
};
/// The counter-entry of AnswerComplaint: it is open again.
struct TakeBackAnswer {
    ComplaintId complaint;
    std::string reason;
};
struct WithdrawComplaint {
    ComplaintId complaint;
    std::string reason;
};

/// Whether the plant's own plan asks for a test of a lot that is being typed. Nothing of what is not known
/// yet; it changes no book.
struct AskWhetherToTest {
    std::string mill, flour, code;
    friend bool operator==(const AskWhetherToTest&, const AskWhetherToTest&) = default;
};

Result<Told> carry_out(State& state, const ShowMillRecord& act);
Result<Told> carry_out(State& state, const LogComplaint& act);
Result<Told> carry_out(State& state, const AnswerComplaint& act);
Result<Told> carry_out(State& state, const TakeBackAnswer& act);
Result<Told> carry_out(State& state, const WithdrawComplaint& act);
Result<Told> carry_out(State& state, const AskWhetherToTest& act);

} // namespace mellowbin::app
