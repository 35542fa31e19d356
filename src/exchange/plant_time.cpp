#include "exchange/plant_time.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>

namespace mellowbin::exchange {
namespace {

using std::chrono::seconds;

/// The zone's rules, with the stretch looked up last at hand: a log stays in one for half a year.
class ZoneRules {
public:
    explicit ZoneRules(const date::time_zone& zone) : zone_(zone) {}

    const date::local_info& at(date::local_seconds local) {
        if (local < from_ || local >= to_)
            look_up(local);
        return info_;
    }

private:
    void look_up(date::local_seconds local) {
        info_ = zone_.get_info(local);
        from_ = to_ = local; // holds for this one time only, unless:
        if (info_.result != date::local_info::unique)
            return;
        // Within a day of a change of the clocks a time may be skipped or repeated.
        const auto local_of = [&](Instant instant) {
            return date::local_seconds{instant.time_since_epoch() + info_.first.offset};
        };
        from_ = local_of(info_.first.begin + Days{1});
        to_ = local_of(info_.first.end - Days{1});
    }

    const date::time_zone& zone_;
    date::local_info info_{};
    date::local_seconds from_{}, to_{};
};

/// The lines of one stay in a repeated hour.
struct RepeatedHour {
    date::local_info info{};
    date::local_seconds newest{};
    std::vector<std::size_t> first_pass;
    bool is_second_pass = false;
    std::optional<Instant> before, after; ///< the readings around it
};

class InstantsInOrder {
public:
    explicit InstantsInOrder(const date::time_zone& zone, PlantInstants& found)
        : rules_(zone), found_(found) {}

    void take(std::size_t index, const WrittenTime& time) {
        if (time.offset)
            return take_certain(index, in_utc(time.local, *time.offset));
        const date::local_info& info = rules_.at(time.local);
        if (info.result == date::local_info::unique)
            take_certain(index, in_utc(time.local, info.first.offset));
        else if (info.result == date::local_info::ambiguous)
            take_repeated(index, time.local, info);
    }
    void end() {
        if (hour_ && !hour_->is_second_pass)
            settle_single_pass();
        hour_.reset();
    }

private:
    static Instant in_utc(date::local_seconds local, seconds offset) {
        return Instant{local.time_since_epoch() - offset};
    }

    void take_certain(std::size_t index, Instant instant) {
        found_.of[index] = instant;
        if (hour_) {
            const Instant change = hour_->info.first.end;
            const seconds repeated = hour_->info.first.offset - hour_->info.second.offset;
            if (instant < change - repeated) // back before it: what follows is another pass
                end();
            else if (!hour_->after && instant >= change + repeated)
                hour_->after = instant;
        }
        last_certain_ = instant;
    }

    void take_repeated(std::size_t index, date::local_seconds local, const date::local_info& info) {
        if (hour_ && hour_->info.first.end != info.first.end)
            end();
        if (!hour_) {
            hour_ = std::make_unique<RepeatedHour>(RepeatedHour{info, local, {}, false, {}, {}});
            if (last_certain_ && *last_certain_ < info.first.end)
                hour_->before = last_certain_;
        } else if (local <= hour_->newest) {
            hour_->is_second_pass = true;
        }
        hour_->newest = local;
        if (!hour_->is_second_pass)
            hour_->first_pass.push_back(index);
        found_.of[index] = in_utc(local, hour_->is_second_pass ? info.second.offset : info.first.offset);
    }

    void settle_single_pass() {
        const RepeatedHour& hour = *hour_;
        const seconds repeated = hour.info.first.offset - hour.info.second.offset;
        const Instant begin = *found_.of[hour.first_pass.front()];
        const Instant end = *found_.of[hour.first_pass.back()];
        const auto longest_gap = [&](seconds shift) {
            seconds longest{0};
            if (hour.before)
                longest = std::max(longest, begin + shift - *hour.before);
            if (hour.after)
                longest = std::max(longest, *hour.after - (end + shift));
            return longest;
        };
        const bool is_later = longest_gap(repeated) < longest_gap(seconds{0});
        if (is_later)
            for (const auto index : hour.first_pass)
                *found_.of[index] += repeated;
        const auto on_the_clock = date::local_seconds{begin.time_since_epoch() + hour.info.first.offset};
        found_.notes.push_back(fmt::format(
            "The clocks went back on {}; the hour they repeated stands in the file once, from {}, and was "
            "taken for its {} pass",
            date::format("%F", on_the_clock), date::format("%R", on_the_clock),
            is_later ? "second" : "first"));
    }

    ZoneRules rules_;
    PlantInstants& found_;
    std::unique_ptr<RepeatedHour> hour_; ///< none: no hour is being repeated
    std::optional<Instant> last_certain_;
};

bool goes_backwards(std::span<const WrittenTime> times) {
    std::size_t on = 0, back = 0;
    for (std::size_t i = 1; i < times.size(); ++i) {
        on += times[i].local > times[i - 1].local ? 1 : 0;
        back += times[i].local < times[i - 1].local ? 1 : 0;
    }
    return back > on;
}

} // namespace

PlantInstants to_instants(std::span<const WrittenTime> times, const date::time_zone* zone) {
    PlantInstants found;
    found.of.resize(times.size());
    if (!zone) {
        for (std::size_t i = 0; i < times.size(); ++i)
            found.of[i] = Instant{times[i].local.time_since_epoch() -
                                  times[i].offset.value_or(std::chrono::minutes{0})};
        return found;
    }
    InstantsInOrder in_order(*zone, found);
    const bool is_backwards = goes_backwards(times);
    for (std::size_t i = 0; i < times.size(); ++i) {
        const std::size_t index = is_backwards ? times.size() - 1 - i : i;
        in_order.take(index, times[index]);
    }
    in_order.end();
    return found;
}

} // namespace mellowbin::exchange
