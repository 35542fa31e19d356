#pragma once

#include "dough/card.h"
#include "dough/limits.h"
#include "support/catch.h"
#include "support/iso.h"

#include <algorithm>
#include <deque>
#include <iterator>
#include <vector>

namespace mellowbin::dough {

/// A run of two batches of 200 kg of pan bread from one released lot. A test changes what matters to it.
struct CardCase {
    std::deque<Lot> lots; // the input points into it
    CardInput input;

    CardCase() {
        auto& run = input.run;
        run.id = RunId{1};
        run.code = "R-1";
        run.day = day_from_iso("2026-11-25");
        run.batches = 2;
        run.flour = Grams{400'000};
        auto& product = input.product;
        product.name = "Pan bread";
        product.flour = FlourId{1};
        product.market = "US-federal";
        product.water_offset = AbsorptionPoints{2};
        product.oxidant = Substance::ascorbic_acid;
        product.house_maximum = OxidantPpm{75};
        product.ingredients = {{"Salt", 1.8}, {"Yeast", 2}};
        auto& line = input.line;
        line.friction_factor = CelsiusStep{14};
        line.oxidant_scale_step_g = 0.1;
        line.oxidant_scale_error_g = 0.1;
        input.law = {shipped_limits(), markets()};
        input.propionate_rows = shipped_propionate_limits();
    }

    /// A released lot of the product's flour: 14.0 % moisture, 12.0 % protein, 62 % absorption, 310 s.
    Lot& add(const std::string& code, std::int64_t grams, double maturity) {
        auto& lot = lots.emplace_back();
        lot.id = LotId{static_cast<std::int64_t>(lots.size())};
        lot.code = code;
        lot.flour = FlourId{1};
        lot.state = LotState::released;
        lot.milled_on = day_from_iso("2026-11-10");
        lot.bag = Grams{25'000};
        const auto at_14 = Basis::at(Moisture{14});
        lot.certificate.set({Property::moisture, 14.0, Basis::as_is(), "", wheat_nitrogen_factor});
        lot.certificate.set({Property::protein, 12.0, at_14, "", wheat_nitrogen_factor});
        lot.certificate.set({Property::absorption, 62.0, at_14, "", wheat_nitrogen_factor});
        lot.certificate.set({Property::falling_number, 310, Basis{}, "", wheat_nitrogen_factor});
        input.lots.push_back({&lot,
                              Grams{grams},
                              Maturity{maturity},
                              Maturity{maturity - 0.1},
                              Maturity{std::min(1.0, maturity + 0.1)},
                              Celsius{20},
                              true,
                              {},
                              {},
                              {}});
        return lot;
    }

    Card card() const {
        auto made = make_card(input);
        if (!made)
            FAIL(mellowbin::in_words(made.refusals().front()));
        return *std::move(made);
    }
};

inline std::vector<Caution> cautions_at(const Card& card, CautionAt at) {
    std::vector<Caution> here;
    std::copy_if(card.cautions.begin(), card.cautions.end(), std::back_inserter(here),
                 [at](const Caution& caution) { return caution.at == at; });
    return here;
}

inline bool warns(const Card& card, CautionAt at, const std::string& words) {
    for (const auto& caution : cautions_at(card, at))
        if (caution.words.find(words) != std::string::npos)
            return true;
    return false;
}

} // namespace mellowbin::dough
