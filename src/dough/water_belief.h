#pragma once

#include "core/batch.h"
#include "core/certificate.h"
#include "core/result.h"
#include "dough/taught_state.h"
#include "dough/water_word.h"

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace mellowbin::dough {

/// A lot's part of the flour, by mass at 14 % moisture; the shares of a dough add up to 1.
struct LotShare {
    LotId lot;
    double share = 1;
};

/// What a batch said about water.
struct WaterSaid {
    ProductId product;
    LineId line;
    Day day;
    std::vector<LotShare> lots;
    Absorption14 farinograph; ///< of the blend, before any learning
    Absorption14 given;       ///< what all the water came to
    std::optional<Feel> feel; ///< nothing: nobody said, which is weak evidence that it was right
};

/// What a dough takes beside the farinograph, with the doubt that is left. Standard deviations in points.
struct WaterLearned {
    AbsorptionPoints offset; ///< of product and line
    double offset_sd = 0;
    AbsorptionPoints deviation; ///< of the lots, mean by share
    double deviation_sd = 0;
    double sd = 0;          ///< of both together
    int batches = 0;        ///< of the product on the line that somebody said a word of
    bool is_assumed = true; ///< no batch of the product has been scored, and its offset is nobody's own
};

/// How far things are believed to differ before any batch, standard deviations in points of absorption, and
/// what a word is worth. Where there are several figures, which of them holds is learned.
struct WaterSpreads {
    double assumed_offset = 0;    ///< an offset that nobody has measured
    double known_offset = 0;      ///< one that the plant has entered as its own
    double line = 0;              ///< lines of one product
    double drift = 0;             ///< of an offset in a year: crops, yeast, mixers wear
    std::array<double, 3> lots{}; ///< of a plant, around their certificates
    double crop_step = 0;         ///< of an offset at a lot that is new to the product
    double crop_share = 0;        ///< how likely it is that offsets step so
    struct Band {
        double width = 0;  ///< within so many points of its optimum a dough is called right
        double weight = 0; ///< how likely, beside the others
    };
    std::array<Band, 4> bands{};
    std::array<double, 2> noise{}; ///< of an operator's feeling
    WordTrust trust;
    double forgetting = 0; ///< at a new lot, of which figures hold
    double odd_word = 0;   ///< a word that was less likely than this is odd
};
WaterSpreads published_water_spreads(); ///< from the literature table; assumptions where no source is

/// What is known of a lot's deviation by itself: points, and points squared.
struct LotDeviation {
    double mean = 0;
    double variance = 0;
    friend bool operator==(const LotDeviation&, const LotDeviation&) = default;
};

/// Target absorption = farinograph + offset of product and line + deviation of the lot, sharpened by every
/// batch. A word is no measurement: it says on which side of a band around the optimum the dough lay, and
/// neither the band nor how surely its operator feels is known; both are learned, as is how far lots lie
/// apart (six normal beliefs, weighed; water_groups.h). Pure; the order of batches matters a little. A batch
/// costs six times the square of what is in it: products, products on lines, and the lots that were not let
/// go.
///
/// In simulated plants the range of 80 % held the optimum in 80 to 84 of 100 doughs. It holds it less often
/// where an operator's band is very wide or lies to one side (in 60 to 70), and a certificate that is wrong
/// by three points is half mended after three words.
class WaterBelief {
public:
    explicit WaterBelief(const WaterSpreads& spreads = published_water_spreads());
    /// As state() gave it, to the last bit; the state is whole. Lots that were let go are not in it.
    explicit WaterBelief(const WaterState& state, const WaterSpreads& spreads = published_water_spreads());
    ~WaterBelief();
    WaterBelief(const WaterBelief&);
    WaterBelief& operator=(const WaterBelief&);
    WaterBelief(WaterBelief&&) noexcept;
    WaterBelief& operator=(WaterBelief&&) noexcept;

    /// What the plant says that a product takes, from here on. Of a product that was in a batch this makes
    /// its offset as open as before any: what was learned of lots and of others stays, its words count anew.
    void expect(ProductId product, AbsorptionPoints offset, bool is_assumed);
    /// What it goes by; before anything was said of a product, 0 points, assumed.
    [[nodiscard]] bool expects(ProductId product, AbsorptionPoints offset, bool is_assumed) const;
    /// In order of days; an earlier day counts as the last one. Gives back false where the word was odd: less
    /// likely than one in a hundred before it was said. A slip of the pen moves little, for some words mean
    /// nothing; a dough that has changed is followed, for each such word widens what is believed. None of its
    /// lots was let go.
    bool observe(const WaterSaid& said);
    /// The lot is used up: it is summed out, which changes nothing of what is believed of all else. What was
    /// known of it by itself is given back, and stays for whoever asks. It was in a batch.
    LotDeviation let_go(LotId lot);
    /// Of a lot that was let go before this began: what let_go() gave. It is not one that is carried along.
    void recall(LotId lot, const LotDeviation& deviation);
    /// Of a lot that was let go and that nobody asks for any more.
    void forget(LotId lot);
    [[nodiscard]] bool was_let_go(LotId lot) const;    ///< and not forgotten
    [[nodiscard]] bool knows(LotId lot) const;         ///< was in a batch and not let go
    [[nodiscard]] bool knows(ProductId product) const; ///< a batch said something of it
    [[nodiscard]] std::vector<LotId> lots() const;     ///< that it knows
    [[nodiscard]] WaterState state() const;
    [[nodiscard]] std::size_t unknowns() const; ///< lots, products, and products on lines
    /// Lots that it does not know deviate by 0, with the spread of lots; one that was let go as it was
    /// believed to then, and as if that told nothing of the offset. A lot that is new to the product may be
    /// of a new crop.
    [[nodiscard]] WaterLearned predict(ProductId product, LineId line, std::span<const LotShare> lots,
                                       Day day) const;

private:
    struct Filter;
    std::unique_ptr<Filter> filter_;
};

/// How often the range of 80 % holds, and where it does not; for who reads it. Told by plants that were made
/// up, none was measured.
std::string water_range_words();

/// What a lot's absorption starts from.
struct AbsorptionStart {
    enum class From { certificate, composition };
    From from{};
    Absorption14 absorption;
    double sd = 0;     ///< points
    std::string words; ///< "58.9 % from W24-101 of the same mill, protein +0.4, damaged starch -0.3"
};

/// From the lot's own certificate, or, where it has no absorption, from protein and damaged starch relative
/// to the last lot of the same mill (and flour), with a wider spread. Damaged starch counts only when both
/// were measured by one method. Refused, with what is missing, where neither can be had. `last_code` names
/// the last lot in the words.
Result<AbsorptionStart> absorption_start(const Certificate& lot, const Certificate* last,
                                         const std::string& last_code);

} // namespace mellowbin::dough
