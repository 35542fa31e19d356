#pragma once

#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "ui/views/common/form.h"

#include <string>

namespace mellowbin::views {

/// Where the certificate a lot came with is to be saved.
struct SourceSaving {
    bool is_open = false;
    std::string path; ///< a file or a folder; empty: beside the book
    Asked asked;
};

/// With which certificate the lot came, and the way to have its file again.
void draw_source(SourceSaving& saving, const app::LotSheet& sheet, const app::Notice& notice,
                 app::Intents& out);

} // namespace mellowbin::views
