#pragma once

#include "aging/storage_path.h"
#include "core/property.h"
#include "core/retest.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

/// Which of a lot's results say something about its maturing, and how much.
namespace mellowbin::aging {

/// The change of a property from fresh to mature: normal, may be zero or of either sign.
struct Amplitude {
    double mean = 0;
    double sd = 0;
    friend bool operator==(const Amplitude&, const Amplitude&) = default;
};

/// Whether the change is a share of the fresh value or points added to it.
enum class ChangeKind { share, points };

/// What a property follows while flour lies.
enum class Follows {
    dough,    ///< the maturity of the dough: its results are evidence of that rate
    own_rate, ///< a rate of its own: its results say nothing of the dough's
    drift,    ///< changes along with the dough, but is no evidence of its maturity
};

/// A property that changes while flour matures.
struct MaturingTest {
    Property property;
    ChangeKind change;
    Amplitude published; ///< before this plant has measured any
    double error; ///< of one test: coefficient of variation, or points; an assumption where no laboratory's
                  ///< own is given
    Follows follows = Follows::dough;
    Lognormal own_rate = {}; ///< 1/d at 20 C; of what follows its own
};
/// A method's name as it is compared: case, spaces and hyphens do not count.
std::string plain_method(std::string_view method);
std::span<const MaturingTest> maturing_tests();
/// Nothing for a property that says nothing about maturing.
const MaturingTest* maturing_test(Property property);

/// One result, restated so that it can be compared with the others of its series.
struct Observation {
    double value = 0;
    double at = 0;                   ///< days; a mill's certificate: the milling
    bool is_fresh = false;           ///< taken at the mill: maturity 0
    std::optional<StoragePath> path; ///< of the flour sampled, where that is not the lot's own
};
/// Results of one property by one method: their baseline is not known, only their change counts.
struct Series {
    Property property{};
    Amplitude amplitude; ///< what is believed before
    double error = 0;
    std::vector<Observation> observations; ///< in order of time
    Follows follows = Follows::dough;
    Lognormal own_rate = {}; ///< 1/d at 20 C; of what follows its own
};
using Evidence = std::vector<Series>;

/// A result of a lot as it stands among the others.
struct Standing {
    std::optional<RetestId> retest; ///< none: the certificate
    Property property{};
    bool counts = false; ///< for the dough's rate of maturing
    bool stands = false; ///< in its series, whether that counts or not
    std::string why;     ///< "counts", or why it is set aside, or what it says instead
};

/// What believing starts from, by property; published, learned, or the laboratory's own.
struct AmplitudePriors {
    std::vector<std::pair<Property, Amplitude>> learned;      ///< in place of the published ones
    std::vector<std::pair<Property, double>> own_errors = {}; ///< of one test, as MaturingTest::error
    [[nodiscard]] Amplitude of(const MaturingTest& test) const;
    [[nodiscard]] double error_of(const MaturingTest& test) const;
};

struct SortedResults {
    Evidence evidence;              ///< a series of one counts once a second result comes
    std::vector<Standing> standing; ///< of every result of a maturing property, the certificate's first
};
/// Sorts a lot's results into series. Percentages and contents are restated at 14 % moisture; what cannot be,
/// what is by another method than the newest retest of its property, and a certificate that names no method
/// or another one are set aside with the reason. A withdrawn retest does not stand. `paths` gives the flour
/// sampled, by retest, where it is not the lot as a whole.
SortedResults sort_results(const Lot& lot, std::span<const Retest* const> retests,
                           std::span<const std::optional<StoragePath>> paths,
                           const AmplitudePriors& priors = {});

} // namespace mellowbin::aging
