#include "support/catch.h"
#include "support/screen.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <string>

using namespace mellowbin;
using namespace mellowbin::ui;
using mellowbin::testing::Screen;

namespace {

struct TwoRows {
    std::string protein, ash;
    Refusals refusals;

    void draw() {
        for (auto [label, text] : {std::pair{"Protein", &protein}, std::pair{"Ash", &ash}})
            form_row({.label = label, .refusals = &refusals, .note = "10.5 to 13.0 %"},
                     [&, label = label, text = text] {
                         number_field({.label = label,
                                       .unit = "%",
                                       .refusals = &refusals,
                                       .width = 7_em,
                                       .label_place = LabelPlace::hidden},
                                      *text);
                     });
    }
};

const Refusals one_refusal{{"Protein", "131 was read; from 1 to 40 % is expected", "Check the figure"}};

} // namespace

TEST_CASE("A refusal takes the place of the note beside its field, and no row moves") {
    TwoRows rows;
    Screen screen([&] { rows.draw(); });
    screen.settle();
    const auto protein = screen.find("Protein").rect, ash = screen.find("Ash").rect;
    rows.refusals = one_refusal;
    screen.settle();
    CHECK(screen.find("Protein").rect.top == protein.top);
    CHECK(screen.find("Ash").rect.top == ash.top);
    const auto& refusal = screen.find("131 was read; from 1 to 40 % is expected. Check the figure");
    CHECK(refusal.kind == Kind::refusal);
    CHECK(refusal.rect.left > protein.right);
    CHECK(refusal.rect.bottom <= ash.top);
}

TEST_CASE("Where a form is narrow its labels and messages stand above and beneath, and no row moves either") {
    TwoRows rows;
    Screen screen([&] { rows.draw(); }, {.width = 340, .height = 700});
    screen.settle();
    const auto ash = screen.find("Ash").rect;
    CHECK(screen.find("Protein").rect.right <= 340);
    rows.refusals = one_refusal;
    screen.settle();
    CHECK(screen.find("Ash").rect.top == ash.top);
    const auto& refusal = screen.find("131 was read; from 1 to 40 % is expected. Check the figure");
    CHECK(refusal.rect.right <= 340);
    CHECK(refusal.rect.top >= screen.find("Protein").rect.bottom - 1);
}
