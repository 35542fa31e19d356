#pragma once

#include "app/book/beliefs.h"
#include "db/change.h"
#include "db/sqlite_connection.h"
#include "support/iso.h"

#include <chrono>
#include <optional>
#include <random>
#include <vector>

namespace mellowbin::tests {

inline constexpr ProductId pan{1}, bun{2};
inline constexpr int all_lines = 2;

/// A book in memory with a run of each of two products on each of two lines, and what was mixed of them; lots
/// and batches are written into it by the thousand, the short way.
class TaughtBakery {
public:
    TaughtBakery();

    LotId take_in();
    void becomes(LotId lot, LotState state);
    /// Two doughs of 100 kg of each lot; the water points beside the farinograph.
    BatchId mix(ProductId product, const std::vector<LotId>& lots, double points,
                std::optional<Feel> feel = {}, int line = 1);
    /// So many doughs of a lot that comes for them and is used up by them.
    LotId mix_of_a_lot(ProductId product, int batches, double points = 2);
    void say(BatchId batch, Feel feel);
    void counter(BatchId batch);
    [[nodiscard]] bool is_countered(BatchId batch);
    void expect(ProductId product, double points, bool is_assumed);

    SqliteConnection connection{":memory:"};
    app::Book book; ///< its lots, all of them unless some are taken out
    Instant at = day_from_iso("2026-03-01") + std::chrono::hours(6);
    BatchId newest;

private:
    template <class Act> void done(Act act);
};

/// Weeks of work as the dice fall: four lots in use, blends of two, words said some doughs later, a batch now
/// and then taken back while it is open.
class DicedWeeks : public TaughtBakery {
public:
    explicit DicedWeeks(unsigned seed) : dice_(seed) {}
    void one_more();

private:
    int up_to(int most) { return std::uniform_int_distribution(1, most)(dice_); }
    std::mt19937 dice_;
    std::vector<LotId> in_use_;
};

/// As it stands when followed from the newest mark.
app::Doughs started(TaughtBakery& bakery);
/// Of every batch from the first on, with no lot let go: what all else is to be equal to.
app::Taught of_everything(TaughtBakery& bakery);
/// The largest difference in what is believed of any two of the lots together, by any product and line, and
/// in the heat of mixing.
double difference(const app::Doughs& doughs, const app::Taught& everything, const std::vector<LotId>& lots);
double difference(const app::Doughs& one, const app::Doughs& other, const std::vector<LotId>& lots);
/// The released ones, and one that nobody has seen.
std::vector<LotId> live_lots(const app::Book& book);
/// Of the lot by itself.
double deviation(const app::Doughs& doughs, LotId lot);

} // namespace mellowbin::tests
