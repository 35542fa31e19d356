#pragma once

#include "core/certificate.h"
#include "core/result.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// Whether two laboratories' results of one flour contradict each other, or differ by chance.
namespace mellowbin {

/// How the limits of a row are given.
enum class PrecisionGiven {
    absolute,        ///< in the property's unit, at 14 % moisture where it has a basis
    relative,        ///< in % of the mean of both results
    does_not_repeat, ///< nothing is said of a difference, however large
};
std::string_view key_of(PrecisionGiven given);
std::optional<PrecisionGiven> precision_given_from_key(std::string_view key);

/// How far two results of a property may lie apart by chance, in 95 of 100.
struct TestPrecision {
    std::int64_t id = 0; ///< of the plant's own rows; 0: published
    Property property{};
    std::vector<std::string> methods; ///< names of one method; none: whatever the method
    PrecisionGiven given{};
    std::optional<double> r;         ///< between two results of one laboratory; nothing: not known
    std::optional<double> R;         ///< between one each of two laboratories; nothing: not known
    std::optional<double> low, high; ///< of the mean for which it holds, both included
    std::string source;
    std::string confidence;  ///< "read", "computed", "from memory"; of the plant's own: who entered it
    int mill_replicates = 1; ///< determinations behind a result of the mill
    int own_replicates = 1;  ///< and behind one of the plant's own
    friend bool operator==(const TestPrecision&, const TestPrecision&) = default;
};

/// The table the program comes with, `test_precision.csv`.
const std::vector<TestPrecision>& published_test_precision();
/// A plant's own rows, and the published ones after them: the order in which they count.
std::vector<TestPrecision> before_published(std::vector<TestPrecision> own);
/// Reads such a table. Throws std::logic_error, naming the line, at a row that is none.
std::vector<TestPrecision> read_test_precision(std::string_view table);

/// The critical difference of two laboratories' means of n1 and n2 determinations, in the unit of the limits:
/// sqrt(R^2 - r^2 (1 - 1/(2 n1) - 1/(2 n2))), which is R where both are single (ISO 5725-6, from memory). `r`
/// is at most `R`, the numbers are 1 and more.
double critical_difference(double r, double R, int n1, int n2);

/// How a result of the plant's own stands to the mill's.
struct ComparedResult {
    enum class Verdict { agrees, contradicts, not_said };
    Property property{};
    Verdict verdict{};
    std::optional<double> difference; ///< own less mill's, at 14 % moisture where it has a basis
    std::optional<double> allowed;    ///< what of it is chance
    std::string words;                ///< a sentence without its stop, with the limit's source
};

/// The results that both have, in the order of properties. Rows count in their order: the plant's own first,
/// then the published ones. Compared on one basis and by one method only; else it says why not. Where no
/// reproducibility limit is known nothing is said of contradiction.
std::vector<ComparedResult> compare(const Certificate& mill, const Certificate& own,
                                    std::span<const TestPrecision> rows);

/// A row of the plant as typed.
struct TestPrecisionDraft {
    std::string property; ///< key or name
    std::string method;   ///< names of one method, parted by "|"; empty: whatever the method
    std::string r, R;     ///< of R one is needed
    std::string given;    ///< "absolute" or "relative"; empty: absolute
    std::string low, high;
    std::string mill_replicates, own_replicates; ///< empty: 1
    std::string source;
    friend bool operator==(const TestPrecisionDraft&, const TestPrecisionDraft&) = default;
};
/// Every reason at once why it is no row: a property that is not known, no R, a limit that is no number above
/// 0, r above R, a range upside down, replicates that are no whole number from 1 to 20, no source.
Result<TestPrecision> accept(const TestPrecisionDraft& draft);
TestPrecisionDraft draft_of(const TestPrecision& row);

/// "r 0.02 %, R 0.05 %", "R 10 % of the mean", "does not repeat"
std::string limits_in_words(const TestPrecision& row);
/// The names that "|" parts.
std::vector<std::string> methods_in(std::string_view names);
/// The same back: "ISO 3093 | ICC 107/1".
std::string in_one(const std::vector<std::string>& methods);
/// Two names of one method: the same words, whatever edition stands behind a colon.
bool same_method(std::string_view a, std::string_view b);
/// Or a row of this property has both among the names of one method.
bool same_method(Property property, std::string_view a, std::string_view b,
                 std::span<const TestPrecision> rows);

} // namespace mellowbin
