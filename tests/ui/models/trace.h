#pragma once

#include "app/models/trace_page.h"

namespace mellowbin::test {

/// A lot that went into two batches and to two customers, beside a lot that shares its silo; one drill that
/// was, and one that runs.
app::TracePage a_traced_lot();

} // namespace mellowbin::test
