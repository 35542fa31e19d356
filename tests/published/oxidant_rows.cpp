#include "dough/oxidant.h"
#include "published/published.h"
#include "support/dough_formulas.h"

#include <stdexcept>
#include <vector>

namespace mellowbin::published {
namespace {

using namespace mellowbin::dough;

Substance named(const Row& row, const std::string& key) {
    if (const auto found = substance_from_key(row.text(key)))
        return *found;
    throw std::runtime_error(row.id + ": no such substance: " + row.text(key));
}

const Registered equivalents{
    "oxidant milliequivalents", [](const Row& row) -> Answer {
        std::vector<MillAddition> doses{{named(row, "first"), OxidantPpm{row.number("first_ppm")}}};
        if (row.has("second"))
            doses.push_back({named(row, "second"), OxidantPpm{row.number("second_ppm")}});
        return *milliequivalents(doses);
    }};

const Registered other_salt{
    "dose as another salt", [](const Row& row) -> Answer {
        return as_other_salt(OxidantPpm{row.number("ppm")}, named(row, "from"), named(row, "to"))->value();
    }};

} // namespace
} // namespace mellowbin::published
