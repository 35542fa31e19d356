#pragma once

#include <string_view>

namespace mellowbin::literature {

/// How a figure came into the table.
enum class FigureBasis {
    read,        ///< read in the source
    computed,    ///< worked out from figures read in the source
    from_memory, ///< recalled, not confirmed against its source
    assumption,  ///< chosen here; no publication gives it
};

constexpr std::string_view name_of(FigureBasis basis) {
    switch (basis) {
    case FigureBasis::read:
        return "read";
    case FigureBasis::computed:
        return "computed";
    case FigureBasis::from_memory:
        return "from memory";
    case FigureBasis::assumption:
        return "assumption";
    }
    return {};
}

struct Source {
    std::string_view key;
    std::string_view reference; ///< in full
};

/// A number that came from outside, or that was assumed, with all one needs to doubt it.
struct Constant {
    std::string_view key;
    double value;
    std::string_view unit; ///< "1" for a pure number
    double low;            ///< the range the value may reasonably lie in
    double high;
    std::string_view conditions;
    std::string_view source; ///< key of a Source
    std::string_view place_in_source;
    FigureBasis basis;
    std::string_view checked_by; ///< who compared it with the source a second time; empty: nobody yet
    std::string_view checked_on; ///< YYYY-MM-DD
};

} // namespace mellowbin::literature
