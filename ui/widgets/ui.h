#pragma once

/// All of the widget layer, for screens.
#include "ui/widgets/board.h"
#include "ui/widgets/button.h"
#include "ui/widgets/chart.h"
#include "ui/widgets/curve.h"
#include "ui/widgets/dialog.h"
#include "ui/widgets/field.h"
#include "ui/widgets/frame.h"
#include "ui/widgets/layout.h"
#include "ui/widgets/offers.h"
#include "ui/widgets/sheet.h"
#include "ui/widgets/specification.h"
#include "ui/widgets/strip.h"
#include "ui/widgets/table.h"
#include "ui/widgets/text.h"
#include "ui/widgets/weighing.h"
#include "ui/widgets/workbench.h"
