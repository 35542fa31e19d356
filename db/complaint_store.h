#pragma once

#include "core/complaint.h"
#include "db/change.h"

#include <optional>
#include <string_view>
#include <vector>

namespace mellowbin {

/// What the plant held against its mills. Appended only: a withdrawal is a second row, which these lists show
/// as is_withdrawn of the first, and so is an answer that is taken back.
class ComplaintStore {
public:
    explicit ComplaintStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::optional<Complaint> find(ComplaintId id) const;
    /// Those noticed in these days, both included, in the order of their days; withdrawn ones too.
    [[nodiscard]] std::vector<Complaint> of_mill(MillId mill, Day from, Day until) const;
    /// Those that nobody answered or withdrew, whenever they were noticed, in the order they were logged.
    [[nodiscard]] std::vector<Complaint> open_of(MillId mill) const;

    /// Writes the complaint under a new number, by the person and at the instant of the change's line.
    Result<ComplaintId> log(Change& change, const Complaint& complaint);
    /// By the person and at the instant of the change's line. Refused when there is none of that number, it
    /// was withdrawn, or it has an answer.
    Result<Done> answer(Change& change, ComplaintId id, const ComplaintAnswer& answer);
    /// The answer is taken back, and the complaint open again. Refused where it has none.
    Result<Done> take_answer_back(Change& change, ComplaintId id, std::string_view reason);
    /// Refused when there is none of that number, or it was withdrawn before.
    Result<Done> withdraw(Change& change, ComplaintId id, std::string_view reason);

private:
    Connection& connection_;
};

} // namespace mellowbin
