#pragma once

#include "db/change.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// A choice of this plant. The book keeps what it was before, so that an old card can be explained.
struct Setting {
    std::string key;
    std::string value; ///< as typed
    std::string unit;  ///< as shown; empty for words
    std::string who;
    Instant since;

    friend bool operator==(const Setting&, const Setting&) = default;
};

class SettingsStore {
public:
    explicit SettingsStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<Setting> all() const; ///< as they are now, by key
    [[nodiscard]] std::optional<Setting> find(std::string_view key) const;
    [[nodiscard]] std::vector<Setting> history(std::string_view key) const; ///< oldest first

    /// By the person and from the instant of the change's line on.
    void set(Change& change, std::string_view key, std::string_view value, std::string_view unit = {});

private:
    Connection& connection_;
};

} // namespace mellowbin
