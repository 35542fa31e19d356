#pragma once

#include "exchange/scan.h"
#include "exchange/symbol.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// One scan of a symbol that is known tells how a scanner is set.
namespace mellowbin::exchange {

/// How a scan came.
struct Arrival {
    enum class End { enter, tab, pause, line }; ///< pause: nothing ended it; line: of a serial port
    enum class Way { keys, slow_keys, port };   ///< slow: no faster than a person types
    std::string bytes;                          ///< without what ended it
    Way way = Way::keys;
    End end = End::enter;
    std::optional<double> seconds_a_key = {};
};

/// Symbols for a test: small and capital letters, signs that keyboards have at different places, and a
/// separator.
struct TestSymbol {
    SymbolKind kind;
    Elements elements;
    std::string words; ///< as it is printed beneath
    Symbol symbol;
};
/// One for each way in which scanners read: an area, and bars for those that read nothing else.
const std::vector<TestSymbol>& test_symbols();

enum class Standing { well, mind, wrong };
struct TestLine {
    std::string what;  ///< "Separator"
    std::string words; ///< "arrives"
    Standing standing = Standing::well;
};
struct TestVerdict {
    std::vector<TestLine> lines; ///< one each; a single one where it was another symbol
    /// What should be set as sent in place of the separator, empty: itself; nothing: it is set so.
    std::optional<std::string> separator;
    [[nodiscard]] bool is_well() const;
};
/// What a scan of any of the test symbols says of separator, identifier, letters, layout, speed and end.
/// `longest_gap`: seconds up to which keys count as a scanner's.
TestVerdict judge_test_scan(const Arrival& arrival, const ScannerSetup& setup, double longest_gap);

/// Whether a text may stand for the separator: what no value of a label has; or the four signs "<GS>".
bool may_part_elements(std::string_view sent);

} // namespace mellowbin::exchange
