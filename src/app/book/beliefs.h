#pragma once

#include "app/book/book.h"
#include "dough/dose_response.h"
#include "dough/mixing_belief.h"
#include "dough/water_belief.h"

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace mellowbin::app {

/// What the plant's batches and bakes have taught: water, heat of mixing, oxidant. Made from the book; a
/// batch that was added since is taken in by itself, what was countered or said later makes the last batches
/// anew. A lot that is used up is let go once its last batch is settled, so that a batch costs what is live
/// and not what has been; whatever touches it again, and a change of an old batch, makes everything anew.
class Doughs {
public:
    void follow(const Book& book);

    [[nodiscard]] const dough::WaterBelief& water() const { return now_.water; }
    [[nodiscard]] const dough::MixingBelief& mixing() const { return now_.mixing; }
    /// Of a lot with loaves of its own; nothing without any. By volume where it has volumes, else by height.
    [[nodiscard]] std::optional<dough::BestDose> best_dose(LotId lot, Substance substance,
                                                           OxidantPpm permitted) const;
    /// The response of all lots to a substance; null without any loaf.
    [[nodiscard]] const dough::DoseResponse* response(Substance substance, LoafMeasure measure) const;
    /// The newest day on which a loaf of the lot was baked with the substance.
    [[nodiscard]] std::optional<Day> baked_on(LotId lot, Substance substance) const;

private:
    struct Beliefs {
        dough::WaterBelief water;
        dough::MixingBelief mixing;
        std::map<ProductId, std::vector<LotId>> newest; ///< the lots of each product's newest dough
    };
    /// What of a batch the beliefs rest on.
    struct Seen {
        BatchId id;
        std::optional<Feel> feel;
        std::optional<Celsius> dough_temperature;
        bool is_countered = false;
        friend bool operator==(const Seen&, const Seen&) = default;
    };
    static Seen seen_of(const Batch& batch);
    void start(const Book& book);
    void observe(const Book& book, const Batch& batch, Beliefs& beliefs) const;
    void settle(const Book& book);
    void let_go(const Book& book);
    [[nodiscard]] bool is_live(const Book& book, LotId lot) const;
    [[nodiscard]] bool comes_back(const Book& book, std::size_t from) const;
    void follow_bakes(const Book& book);

    std::vector<Product> products_; ///< as the beliefs began with
    std::vector<Seen> seen_;        ///< of the batches in `now_`
    std::size_t settled_count_ = 0; ///< of the batches in `settled_`
    Beliefs settled_, now_;
    std::map<LotId, std::size_t> last_batch_; ///< of each lot that was in one, its place in the book
    std::vector<Bake> bakes_;
    std::map<std::pair<Substance, LoafMeasure>, dough::DoseResponse> responses_;
};

} // namespace mellowbin::app
