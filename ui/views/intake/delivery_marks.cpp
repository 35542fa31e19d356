#include "core/decimal.h"
#include "core/door.h"
#include "core/typed_text.h"
#include "ui/views/common/words.h"
#include "ui/views/intake/delivery_side.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {
namespace {

/// "weight, place", each field once; the reason asked for is no fault of its own.
std::string fields_of(const Refusals& refusals, std::size_t& count) {
    std::vector<std::string> names;
    for (const auto& refusal : refusals) {
        const auto name = lower_case(refusal.field);
        if (refusal.field != accept_field && std::find(names.begin(), names.end(), name) == names.end())
            names.push_back(name);
    }
    count = names.size();
    std::string words;
    for (const auto& name : names)
        words += (words.empty() ? "" : ", ") + name;
    return words;
}

} // namespace

LotMark mark_of(const IntakeView& view, const DeliveryLine& line) {
    if (is_untouched(line.draft))
        return {"empty", ui::Role::quiet};
    std::size_t count = 0;
    if (const auto words = fields_of(line.refusals, count); count > 0)
        return {fmt::format("{} to mend: {}", count, words), ui::Role::stop};
    if (view.door.is_refused(view.delivery, line))
        return {"1 to mend: at the door", ui::Role::stop};
    if (const auto words = fields_of(line.against, count); count > 0)
        return {"still to fill in: " + words, ui::Role::quiet};
    if (!line.is_whole())
        return {"1 to mend: why it is taken in", ui::Role::stop};
    if (const auto hold = view.door.hold_of(line); !hold.empty())
        return {"starts on hold: " + hold, ui::Role::mind};
    if (const auto words = fields_of(line.doubts, count); count > 0)
        return {"taken in all the same: " + words, ui::Role::mind};
    return {"whole", ui::Role::good};
}

std::vector<std::int64_t> whole_lots(const IntakeView& view) {
    std::vector<std::int64_t> numbers;
    for (const auto& line : view.delivery.lines())
        if (!is_untouched(line.draft) && line.is_whole() && !view.door.is_refused(view.delivery, line))
            numbers.push_back(line.number);
    return numbers;
}

} // namespace mellowbin::views
