#pragma once

#include "app/models/lots.h"
#include "core/result.h"
#include "ui/views/lots/question.h"

namespace mellowbin::views {

/// A concession begins with what of the lot fails its specification, where nothing was typed yet.
void begin_concession(LotQuestion& question, const app::LotSheet& sheet);

/// What is conceded, by whom, until when and for what, with the refusals beside the fields they name.
void concession_fields(ConcessionDraft& draft, const app::LotSheet& sheet, const Refusals& refusals,
                       Day today);

} // namespace mellowbin::views
