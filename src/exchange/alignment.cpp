#include "exchange/alignment.h"

#include "core/typed_text.h"

#include <algorithm>
#include <map>

namespace mellowbin::exchange {
namespace {

constexpr std::string_view separator = "\x1d";

// What a change costs, beside one for a character that is lost or added. Another in its place is the
// likelier: so a layout does.
constexpr double other_case = 0.25, is_other = 0.6, separator_is_other = 0.5, separator_is_lost = 0.9,
                 added_at_end = 0.5, added_at_separator = 0.8;

double cost_of(const std::string& expected, const std::string& came) {
    if (expected == came)
        return 0;
    if (expected == separator)
        return separator_is_other;
    return lower_case(expected) == lower_case(came) ? other_case : is_other;
}

class Table {
public:
    Table(const std::vector<std::string>& expected, const std::vector<std::string>& came)
        : expected_(expected), came_(came), wide_(came.size() + 1),
          cells_((expected.size() + 1) * (came.size() + 1)) {
        for (std::size_t i = 0; i <= expected_.size(); ++i)
            for (std::size_t j = 0; j <= came_.size(); ++j)
                cells_[i * wide_ + j] = best(i, j);
    }
    [[nodiscard]] Alignment read() const {
        Alignment read;
        read.came.resize(expected_.size());
        read.before.resize(expected_.size() + 1);
        std::size_t i = expected_.size(), j = came_.size();
        while (i > 0 || j > 0) {
            const Step step = cells_[i * wide_ + j].step;
            if (step == Step::same)
                read.came[--i] = came_[--j];
            else if (step == Step::lost)
                --i;
            else
                read.before[i].insert(0, came_[--j]);
        }
        return read;
    }

private:
    enum class Step { same, lost, added };
    struct Cell {
        double cost = 0;
        Step step = Step::same;
    };

    [[nodiscard]] double added(std::size_t i) const {
        if (i == 0 || i == expected_.size())
            return added_at_end;
        return expected_[i] == separator || expected_[i - 1] == separator ? added_at_separator : 1;
    }
    [[nodiscard]] Cell best(std::size_t i, std::size_t j) const {
        if (i == 0 && j == 0)
            return {};
        Cell least{1e9, Step::same};
        const auto take = [&](double cost, Step step) {
            if (cost < least.cost)
                least = {cost, step};
        };
        if (i > 0 && j > 0)
            take(cells_[(i - 1) * wide_ + j - 1].cost + cost_of(expected_[i - 1], came_[j - 1]), Step::same);
        if (j > 0)
            take(cells_[i * wide_ + j - 1].cost + added(i), Step::added);
        if (i > 0)
            take(cells_[(i - 1) * wide_ + j].cost + (expected_[i - 1] == separator ? separator_is_lost : 1),
                 Step::lost);
        return least;
    }

    const std::vector<std::string>&expected_, &came_;
    std::size_t wide_;
    std::vector<Cell> cells_;
};

/// A layout turns a sign the same way each time, and no two signs into one.
std::size_t alike(const std::vector<std::string>& expected, const std::vector<std::string>& came) {
    std::map<std::string, std::map<std::string, std::size_t>> turned, back;
    for (std::size_t i = 0; i < expected.size(); ++i)
        if (!came[i].empty()) {
            ++turned[lower_case(expected[i])][lower_case(came[i])];
            ++back[lower_case(came[i])][lower_case(expected[i])];
        }
    std::size_t count = 0;
    for (const auto& [sign, into] : turned) {
        const auto& [other, times] = *into.begin();
        if (into.size() == 1 && back[other].size() == 1 && (times > 1 || other == sign))
            count += times;
    }
    return count;
}

} // namespace

std::vector<std::string> characters_of(std::string_view text) {
    std::vector<std::string> characters;
    while (!text.empty()) {
        const auto length = std::max<std::size_t>(1, character_length(text));
        characters.emplace_back(text.substr(0, length));
        text.remove_prefix(length);
    }
    return characters;
}

Alignment aligned(const std::vector<std::string>& expected, const std::vector<std::string>& came) {
    auto read = Table(expected, came).read();
    read.alike = alike(expected, read.came);
    return read;
}

} // namespace mellowbin::exchange
