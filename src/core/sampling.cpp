#include "core/sampling.h"

#include <algorithm>
#include <array>
#include <utility>

namespace mellowbin {
namespace {

// All from memory: ISO 2859-1, 9.3.
constexpr std::size_t looked_back = 5; // two of five or fewer consecutive lots
constexpr std::size_t most_out = 2;
constexpr int back_to_normal = 5; // consecutive lots accepted while tightened
constexpr int discontinues = 5;   // lots not accepted while tightened
constexpr int leads_to_reduced = 30;
constexpr int score_of_few = 2, score_of_many = 3; // acceptance number 0 or 1; 2 and more

class Switcher {
public:
    explicit Switcher(int acceptance_number) : acceptance_number_(acceptance_number) {}

    void take(std::size_t at, const InspectedLot& lot) {
        if (now_.severity == Severity::discontinued) {
            if (!lot.is_mended)
                return; // what comes meanwhile is inspected by no rule of this scheme
            mend();
        }
        remember(at, lot.is_accepted);
        switch (now_.severity) {
        case Severity::normal:
            return take_on_normal(at, lot);
        case Severity::tightened:
            return take_on_tightened(at, lot);
        case Severity::reduced:
            if (!lot.is_accepted)
                turn(Severity::normal, at, {at});
            return;
        case Severity::discontinued:
            return;
        }
    }
    void mend() {
        if (now_.severity == Severity::discontinued)
            turn(Severity::tightened, *now_.since, std::move(now_.because));
    }
    [[nodiscard]] const Switching& reached() const { return now_; }

private:
    void turn(Severity severity, std::size_t at, std::vector<std::size_t> because) {
        now_ = {};
        now_.severity = severity;
        now_.since = at;
        now_.because = std::move(because);
        out_.clear();
    }
    void remember(std::size_t at, bool is_accepted) {
        if (last_.size() == looked_back)
            last_.erase(last_.begin());
        last_.emplace_back(at, is_accepted);
    }
    [[nodiscard]] std::vector<std::size_t> lately_out() const {
        std::vector<std::size_t> out;
        for (const auto& [at, is_accepted] : last_)
            if (!is_accepted)
                out.push_back(at);
        return out;
    }
    void take_on_normal(std::size_t at, const InspectedLot& lot) {
        const bool asks_tighter = acceptance_number_ >= 2;
        const bool counts = lot.is_accepted && (!asks_tighter || lot.is_accepted_tighter);
        now_.score = counts ? now_.score + (asks_tighter ? score_of_many : score_of_few) : 0;
        if (auto out = lately_out(); !lot.is_accepted && out.size() >= most_out)
            turn(Severity::tightened, at, std::move(out));
        else if (now_.score >= leads_to_reduced)
            turn(Severity::reduced, at, {});
    }
    void take_on_tightened(std::size_t at, const InspectedLot& lot) {
        if (lot.is_accepted) {
            if (++now_.accepted_in_a_row == back_to_normal)
                turn(Severity::normal, at, {});
            return;
        }
        now_.accepted_in_a_row = 0;
        out_while_tightened(at);
    }
    void out_while_tightened(std::size_t at) {
        out_.push_back(at);
        if (++now_.not_accepted == discontinues)
            turn(Severity::discontinued, at, std::exchange(out_, {}));
    }

    int acceptance_number_;
    Switching now_;
    std::vector<std::pair<std::size_t, bool>> last_; ///< place, accepted; of the last five
    std::vector<std::size_t> out_;                   ///< while tightened
};

} // namespace

std::string_view key_of(Severity severity) {
    static constexpr std::array<std::string_view, 4> keys{"normal", "tightened", "reduced", "discontinued"};
    return keys[static_cast<std::size_t>(severity)];
}

Switching switching_after(std::span<const InspectedLot> lots, int acceptance_number, bool is_mended_since) {
    Switcher switcher(acceptance_number);
    for (std::size_t i = 0; i < lots.size(); ++i)
        switcher.take(i, lots[i]);
    if (is_mended_since)
        switcher.mend();
    return switcher.reached();
}

} // namespace mellowbin
