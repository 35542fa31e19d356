#include "db/record.h"

#include <array>

namespace mellowbin {
namespace {

constexpr std::array<std::string_view, 23> keys{"mill",
                                                "flour",
                                                "place",
                                                "line",
                                                "product",
                                                "lot",
                                                "retest",
                                                "climate_log",
                                                "learning",
                                                "run",
                                                "delivery",
                                                "reservation",
                                                "batch",
                                                "solution",
                                                "bake",
                                                "keeping",
                                                "limit",
                                                "setting",
                                                "propionate_limit",
                                                "test_precision",
                                                "complaint",
                                                "delivery_record",
                                                "begun_delivery"};

} // namespace

std::string_view key_of(RecordKind kind) { return keys[static_cast<std::size_t>(kind)]; }

std::optional<RecordKind> record_kind_from_key(std::string_view key) {
    for (std::size_t i = 0; i < keys.size(); ++i)
        if (keys[i] == key)
            return static_cast<RecordKind>(i);
    return {};
}

} // namespace mellowbin
