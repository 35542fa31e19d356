#pragma once

#include "app/acts/act.h"
#include "core/limit.h"
#include "core/limit_draft.h"

#include <variant>

/// Limits of the law.
namespace mellowbin::app {

struct ConfirmLimit {
    LimitRef row; ///< the person has read the law's text and takes responsibility for the row
};
/// Takes a confirmation back.
struct DoubtLimit {
    LimitRef row;
};
/// The plant corrects a limit: then nobody has confirmed it as it stands.
struct ChangeLimit {
    LimitRef row;
    LimitDraft as; ///< all of it
};
/// Puts a limit back as it was before one of these, unless somebody wrote to it meanwhile.
struct RestoreLimit {
    using Row = std::variant<LimitRow, PropionateRow>;
    Row before;
    Row after; ///< as it was left
};

Result<Told> carry_out(State& state, const ConfirmLimit& act);
Result<Told> carry_out(State& state, const DoubtLimit& act);
Result<Told> carry_out(State& state, const ChangeLimit& act);
Result<Told> carry_out(State& state, const RestoreLimit& act);

} // namespace mellowbin::app
