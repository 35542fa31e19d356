#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// The application identifiers of the GS1 General Specifications, from the table that the program comes with.
namespace mellowbin::exchange {

enum class PartCheck {
    none,
    check_digit,  ///< modulo 10, weights 3 and 1 from the right
    day_or_month, ///< YYMMDD; a day of 00 is the month's last
    day,          ///< YYMMDD
    time,         ///< HHMM
};

/// A part of a value.
struct ValuePart {
    bool is_digits = false; ///< else of character set 82
    std::size_t least = 0, most = 0;
    bool may_be_missing = false;
    PartCheck check = PartCheck::none;
};

struct ApplicationIdentifier {
    std::string first, last;    ///< of the row; "10", or "3100" to "3105"
    bool is_predefined = false; ///< no separator ends it
    std::vector<ValuePart> parts;
    std::vector<std::vector<std::string>> needs; ///< of each group one
    std::vector<std::string> forbidden;          ///< patterns: "310n"
    /// Of an identifier that begins a Digital Link: its qualifiers in their order, or another row of them.
    std::optional<std::vector<std::vector<std::string>>> link_qualifiers;
    std::string title; ///< "BATCH/LOT"

    [[nodiscard]] std::size_t least() const; ///< characters of its value
    [[nodiscard]] std::size_t most() const;
};

/// "3103", exactly; null: there is none.
const ApplicationIdentifier* application_identifier(std::string_view digits);
/// The digits of the identifier that the data begins with; empty: no known one.
std::string_view identifier_at_start(std::string_view data);
/// "310n" is "3103", "400" is "400".
bool is_of_pattern(std::string_view digits, std::string_view pattern);

/// Why the value cannot be one of the identifier, in words; nothing: it can.
std::optional<std::string> fault_of(const ApplicationIdentifier& identifier, std::string_view value);

/// The check digit of a number without it: "629104150021" has 3.
char check_digit_of(std::string_view digits);
/// Of character set 82: what a lot number or an order number may be of.
bool is_of_set_82(std::string_view text);

} // namespace mellowbin::exchange
