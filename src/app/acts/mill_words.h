#pragma once

#include "app/acts/act.h"
#include "app/models/certificate.h"
#include "core/mill_word.h"
#include "core/result.h"

#include <optional>
#include <string>
#include <vector>

/// What the words on mills' certificates mean.
namespace mellowbin::app {

/// What a word of a mill meant before, nothing where it was not known, and what it means now, nothing where
/// it is to be forgotten.
struct MillWordChange {
    std::optional<MillWord> before, after;
};
/// Changes what words of a mill mean, all or none. Refused where one does not mean any more what it did.
struct ChangeMillWords {
    MillId mill;
    std::vector<MillWordChange> changes;
};

/// A basis as it is kept: "14 %" is "14 % moisture". What is none stays as typed.
std::string basis_as_kept(const std::string& typed);
/// What is wrong with what a person says of a label, each at its field: "feuchtkleber: Basis".
Refusals against(const LabelSaid& said);

Result<Told> carry_out(State& state, const ChangeMillWords& act);

} // namespace mellowbin::app
