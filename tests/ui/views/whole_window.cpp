#include "ui/views/whole_window.h"

// Made and ended here, once for all tests: in each of their sources it would take seconds to compile.

namespace mellowbin::test {

WholeWindow::WholeWindow(views::Screen first, ui::FrameSetup setup)
    : screen(
          [this, first] {
              if (!is_begun)
                  screens.show(first);
              is_begun = true;
              views::draw(screens, models(), did);
          },
          setup) {}

WholeWindow::~WholeWindow() = default;

} // namespace mellowbin::test
