#pragma once

#include "core/id.h"
#include "db/change.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// What one lot contributed to what the plant learned.
struct LearningSite {
    LotId lot;
    std::string document; ///< JSON; made and read by those who learn
    friend bool operator==(const LearningSite&, const LearningSite&) = default;
};

/// A change of what the estimates go by.
struct Learning {
    LearningId id;
    Instant at;
    std::string who;
    std::string words; ///< what changed, in one line
    std::optional<LearningId>
        restores;                    ///< an earlier adoption, or 0: the published figures; none: adopted anew
    std::vector<LearningSite> sites; ///< of an adoption
    friend bool operator==(const Learning&, const Learning&) = default;
};

/// What the plant learned from its own lots. Appended only; the newest row says what holds.
class LearningStore {
public:
    explicit LearningStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<Learning> all() const; ///< oldest first
    [[nodiscard]] std::optional<Learning> newest() const;
    [[nodiscard]] std::optional<Learning> find(LearningId id) const;
    /// The adoption that the estimates go by now; nothing: the published figures.
    [[nodiscard]] std::optional<Learning> holding() const;

    /// From now on these lots' contributions hold, by the person and from the instant of the change's line.
    /// Refused without any.
    Result<LearningId> adopt(Change& change, std::string_view words, std::span<const LearningSite> sites);
    /// From now on an earlier adoption holds again, or, by 0, the published figures. Refused when there is no
    /// such adoption, or it holds already.
    Result<LearningId> restore(Change& change, LearningId id, std::string_view words = {});

private:
    Connection& connection_;
};

} // namespace mellowbin
