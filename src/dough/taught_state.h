#pragma once

#include "core/day.h"
#include "core/id.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::dough {

/// What a filter of joint normals holds. An unknown is told by its place, from 0.
struct NormalState {
    std::vector<double> mean;
    std::vector<double> covariance; ///< the lower triangle, row by row: (0,0), (1,0), (1,1), (2,0) …
    friend bool operator==(const NormalState&, const NormalState&) = default;
};

/// What a WaterBelief holds, but for the lots that were let go. Points of absorption and their squares.
/// Before anything was said it has no groups.
struct WaterState {
    /// One way in which lots and crops may differ: how likely it is, and what is believed if it is so.
    struct Group {
        double weight = 0;
        NormalState unknowns;
        friend bool operator==(const Group&, const Group&) = default;
    };
    /// How likely each habit is of who feels the doughs of a line, group by group.
    struct Operator {
        LineId line;
        std::vector<double> weights;
        friend bool operator==(const Operator&, const Operator&) = default;
    };
    struct Expected {
        ProductId product;
        double offset = 0;
        bool is_assumed = true;
        friend bool operator==(const Expected&, const Expected&) = default;
    };
    struct Product {
        ProductId product;
        std::int64_t unknown = 0;
        int words = 0;
        std::vector<LotId> met; ///< lots that it had, of those that are not let go; in order
        friend bool operator==(const Product&, const Product&) = default;
    };
    struct OnLine {
        ProductId product;
        LineId line;
        std::int64_t unknown = 0;
        int words = 0;
        friend bool operator==(const OnLine&, const OnLine&) = default;
    };
    std::vector<Group> groups;       ///< all over the same unknowns
    std::vector<Operator> operators; ///< in order of lines
    std::vector<Expected> expected;  ///< in order of products, as are those below in theirs
    std::vector<Product> products;
    std::vector<OnLine> lines;
    std::map<LotId, std::int64_t> lots; ///< each with its unknown
    std::optional<Day> today;           ///< of the last batch
    friend bool operator==(const WaterState&, const WaterState&) = default;
};

/// What a MixingBelief holds. kJ/kg and their squares.
struct MixingState {
    struct Mixer {
        LineId line;
        std::int64_t mean = 0;
        std::int64_t slope = 0;
        int far_away = 0;
        double scattered = 0;
        int batches = 0;
        friend bool operator==(const Mixer&, const Mixer&) = default;
    };
    struct Product {
        LineId line;
        ProductId product;
        std::int64_t difference = 0;
        int batches = 0;
        friend bool operator==(const Product&, const Product&) = default;
    };
    NormalState unknowns;
    std::vector<Mixer> mixers;
    std::vector<Product> products;
    friend bool operator==(const MixingState&, const MixingState&) = default;
};

/// All that batches taught of doughs, in plain numbers, so that it can be kept.
struct TaughtState {
    WaterState water;
    MixingState mixing;
    std::map<ProductId, std::vector<LotId>> newest; ///< the lots of each product's newest dough
    friend bool operator==(const TaughtState&, const TaughtState&) = default;
};

/// The name of the models by which the state came about, with the figures they begin with: a state of another
/// form says nothing to these models. Short, of letters, digits and hyphens.
std::string form_of_taught_state();

/// Every unknown has its place among those of its filter, and none two.
bool is_whole(const TaughtState& state);

/// The largest difference between the two in any mean, variance or covariance of what `kept` knows; infinite
/// where they count or expect differently or `made` lacks something. Lots that only `made` knows do not
/// matter: they are not yet let go. Both are whole.
double difference(const TaughtState& kept, const TaughtState& made);

} // namespace mellowbin::dough
