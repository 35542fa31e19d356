#pragma once

#include "core/id.h"
#include "core/own_test.h"
#include "db/settings_store.h"

#include <optional>
#include <span>
#include <string>

/// Which lots the plant's own plan asks to test. Advice: it releases nothing and lifts no hold.
namespace mellowbin::app {

struct Station;

/// The plan as the plant has set it.
OwnTesting own_testing(std::span<const Setting> stored);

/// What the plan asks for of a lot.
struct OwnTestAdvice {
    std::string words;  ///< "Test this lot, 2 samples: …"; empty: the plant has no plan
    std::string source; ///< "ISO 2859-1, from memory"; may be empty
    bool is_due = false;
};

/// Of a lot that is new: in quarantine or on hold. Nothing of another.
OwnTestAdvice own_test_advice(const Station& station, const Lot& lot);

/// Of a lot that is still to come in.
struct LotToCome {
    MillId mill;
    FlourId flour;
    std::string code;
};
OwnTestAdvice own_test_advice(const Station& station, const LotToCome& lot);

/// How the next lots of a mill's flour are tested: "tightened since W24-120: …"; empty: by no rule.
std::string testing_of_flour(const Station& station, MillId mill, FlourId flour);

} // namespace mellowbin::app
