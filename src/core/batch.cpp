#include "core/batch.h"

#include "core/names.h"

namespace mellowbin {
namespace {

constexpr std::array feels{
    Named<Feel>{Feel::stiff, "stiff", "Stiff"},
    Named<Feel>{Feel::right, "right", "Right"},
    Named<Feel>{Feel::slack, "slack", "Slack"},
};

} // namespace

std::string_view key_of(Feel feel) { return row_of(feels, feel).key; }
std::string_view name_of(Feel feel) { return row_of(feels, feel).name; }
std::optional<Feel> feel_from_key(std::string_view key) { return from_key(feels, key); }

} // namespace mellowbin
