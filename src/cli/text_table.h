#pragma once

#include "core/day.h"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::cli {

std::string day_or_dash(const std::optional<Day>& day);
std::string number_or_dash(const std::optional<double>& value, int decimals);
/// 0.825 -> "83 %".
std::string as_percent(double share);

enum class Side { left, right };

/// Columns as wide as their widest word.
class TextTable {
public:
    explicit TextTable(std::vector<std::pair<std::string, Side>> heads, std::size_t indent = 0);

    void add(std::vector<std::string> row) { rows_.push_back(std::move(row)); }
    [[nodiscard]] bool is_empty() const { return rows_.size() == 1; }
    void print(std::ostream& out) const;

private:
    std::size_t indent_;
    std::vector<std::pair<std::string, Side>> heads_;
    std::vector<std::vector<std::string>> rows_;
};

} // namespace mellowbin::cli
