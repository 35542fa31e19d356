#pragma once

#include "app/book/book.h"
#include "app/book/taught.h"
#include "db/belief_store.h"
#include "dough/dose_response.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace mellowbin::app {

/// What the plant's batches and bakes have taught: water, heat of mixing, oxidant. What batches taught is
/// kept in the book by marks, so that a start takes in what came after the newest; a batch that was added
/// since is taken in by itself, what was countered or said later makes anew what came after it. A lot that is
/// used up is let go once its last batch is settled, so that a batch costs what is live and not what has
/// been; whatever touches it again goes back to a mark in which it still was.
class Doughs {
public:
    /// Told now and then while many batches are taken in: the share of them that is, 0..1.
    using Progress = std::function<void(double share)>;

    /// Takes in what batches and bakes say by now; the lots of `book` are those that may be asked for. Keeps
    /// marks in the book, without a journal line; where the book cannot take one now, it does without. Throws
    /// BookError where it cannot be read, and then begins at the newest mark the next time.
    void follow(Connection& connection, const Book& book, const Progress& progress = {});
    /// Drops all that was kept, and takes in every batch from the first on. Throws BookError, too, where the
    /// book cannot be written.
    void make_anew(Connection& connection, const Book& book, const Progress& progress = {});

    [[nodiscard]] const dough::WaterBelief& water() const { return now_.water; }
    [[nodiscard]] const dough::MixingBelief& mixing() const { return now_.mixing; }
    /// Of a lot with loaves of its own; nothing without any. By volume where it has volumes, else by height.
    /// `now`: how far it has matured when it is dosed; nothing: as when it was baked.
    [[nodiscard]] std::optional<dough::BestDose>
    best_dose(LotId lot, Substance substance, OxidantPpm permitted,
              const std::optional<MaturityRange>& now = {}) const;
    /// The response of all lots to a substance; null without any loaf.
    [[nodiscard]] const dough::DoseResponse* response(Substance substance, LoafMeasure measure) const;
    /// The newest loaf of the lot that was baked with the substance; null: none.
    [[nodiscard]] const Bake* newest_loaf(LotId lot, Substance substance) const;

private:
    class Follower; ///< what one look at the book needs beside what stays
    void follow_bakes(const Book& book);

    bool has_followed_ = false;        ///< to the end: else it begins at the newest mark
    BatchRows rows_;                   ///< as it last looked
    std::vector<ExpectedOffset> said_; ///< of products, by then
    Taught settled_;                   ///< of the batches of which nothing is said any more
    std::vector<TaughtBatch> open_;    ///< those after, fewer than two spans
    Taught now_;                       ///< of both
    int since_mark_ = 0;               ///< batches settled since one was last kept
    std::vector<LetGoLot> gone_;       ///< since then
    std::set<LotId> untaught_;         ///< lots that were in no batch that is settled and taught of water

    std::vector<Bake> bakes_;
    std::map<std::pair<Substance, LoafMeasure>, dough::DoseResponse> responses_;
    /// What was asked for since a bake was logged last: a plan asks for its lots again at every change.
    mutable std::map<std::tuple<LotId, Substance, OxidantPpm, std::array<double, 3>>, dough::BestDose> best_;
};

} // namespace mellowbin::app
