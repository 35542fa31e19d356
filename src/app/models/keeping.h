#pragma once

#include "app/models/figure.h"
#include "core/bake.h"
#include "core/day.h"
#include "core/limit.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

struct KeepingLimit {
    enum class Standing { permitted, unconfirmed, not_known, forbidden };
    Standing standing{};
    std::string words;
};

struct KeepingRow {
    KeepingId id;
    Day day;                ///< baked on
    std::string words, who; ///< "day 5: mould seen, pH 5.4"
    bool is_withdrawn = false;
};

/// How a product's bread keeps.
struct KeepingModel {
    ProductId product;
    std::string product_name;
    std::optional<SoldAs> sold_as;     ///< nothing: nobody said
    bool is_withheld = false;          ///< the dose of the preservative
    std::vector<Figure> figures;       ///< dose, in bread, undissociated share, enzyme
    std::vector<KeepingLimit> limits;  ///< the line that holds, one a market
    std::vector<std::string> warnings; ///< mould that came early, a content that is not known
    std::string mould_line;            ///< days by the published line, or why it is refused
    std::string site_words;            ///< the site's own record
    std::vector<std::string> advice;   ///< sanitation first, then dose; in order
    std::vector<std::string> practice; ///< what the trade says, without a source
    std::vector<KeepingRow> records;   ///< newest first
    struct Firmness {
        int days = 0;
        double low = 0, mean = 0, high = 0; ///< g, of the records of that day
        int loaves = 0;
    };
    std::vector<Firmness> firmness; ///< by days
};

struct Station;

KeepingModel make_keeping(const Station& station, ProductId product);

} // namespace mellowbin::app
