#pragma once

#include "core/result.h"
#include "dough/limits.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace mellowbin::dough {

enum class PropionateSalt { calcium, sodium };

/// Share of the acid that is not dissociated, the only part that enters the mould: 1/(1 + 10^(pH − pKa)),
/// pKa 4.87. The pH is the bread's (crumb slurry). Refused outside 3 to 8: not bread.
Result<double> undissociated_share(double bread_ph);

/// How a preservative's acid works at a pH. It follows the acid's curve: at no pH does it begin or end to
/// work.
struct AcidAtWork {
    double ph = 0;
    double share = 0;          ///< undissociated
    double times_the_dose = 0; ///< as much effect as at the pH the trade wants a dough below (5.6) takes that
};
/// Refused outside 3 to 8.
Result<AcidAtWork> acid_at_work(double ph);

/// The pH the trade wants a dough below, where propionate or cultured wheat goes in: common practice, no
/// source.
double trades_ph();

/// "12.9 % of the acid works at pH 5.70; as much effect as at pH 5.60 takes 1.22 times the dose"
std::string in_words(const AcidAtWork& acid);

/// Dose with the same effect at another pH: times the ratio of the undissociated shares.
Result<double> dose_at_other_ph(double dose, double from_ph, double to_ph);

/// Mass of propionic acid in a kg of the salt, and the other way round; by molar mass.
double acid_in(PropionateSalt salt);

/// What the bread carries, mg per kg of finished bread.
struct PropionateInBread {
    double as_salt = 0;
    double as_acid = 0;
};

/// From the dose on flour (%) and the yield (kg of bread per kg of flour). Refused for a negative dose or a
/// yield outside 1 to 2.
Result<PropionateInBread> propionate_in_bread(PropionateSalt salt, double percent_of_flour,
                                              double bread_yield);

/// In rising order of strictness.
enum class Keeping {
    permitted,
    unconfirmed, ///< nobody has read the row in its source: counts as not permitted
    not_known,   ///< the row has a figure, and what the bread carries is not known
    forbidden,
};

/// The content held against the line of a market that holds.
struct KeepingJudged {
    Keeping keeping{};
    std::string words; ///< "EU, other prepacked bread: 2069 mg/kg is more than 1000 …"
    PropionateRow row;
};

/// Against the market and every wider one it lies in that has rows, one line each: that of the bread as it is
/// sold, or of any bread. Where a market tells breads apart and nobody said how this one is sold, nothing is
/// permitted until it is said; the same where no row speaks of it, or no market of them has rows. Content:
/// nothing where it is not known.
std::vector<KeepingJudged> judge_propionate(std::span<const PropionateRow> rows,
                                            std::span<const Market> markets, const std::string& market,
                                            std::optional<SoldAs> sold_as,
                                            const std::optional<PropionateInBread>& content);

/// The temperatures that have a published line.
enum class MouldLine { at_21, at_27 };

/// Days until mould on an unpreserved bakery food, by its equilibrium relative humidity (%): log10 D = a − b
/// ERH. Refused outside 74 to 90 %; bread lies above (94 to 97 %), and there the lines cross.
Result<double> mould_free_days(MouldLine line, double erh_percent);

} // namespace mellowbin::dough
