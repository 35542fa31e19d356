#pragma once

#include "ui/views/common/keep.h"
#include "ui/views/welcome/assistant.h"

namespace mellowbin::views {

/// What is typed at the steps of the assistant and not in the book yet.
void keep_begun(KeptWriter& k, const AssistantView& view);
/// The assistant is open again, with the fields as they were typed.
void take_up(KeptReader& k, AssistantView& view);

} // namespace mellowbin::views
