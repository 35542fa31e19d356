#include "core/pallet.h"

#include "core/decimal.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin {
namespace {

constexpr std::size_t sscc_length = 18;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::optional<Grams> mass_of(const PalletDraft& draft, std::size_t place, Refusals& refusals) {
    const auto read = read_decimal_within(pallet_weight_field(place), draft.kg, {0.1, 10'000, "kg"});
    if (!read)
        append(refusals, read.refusals());
    return read && *read ? std::optional(to_grams(Kilograms{**read})) : std::nullopt;
}

} // namespace

char gs1_check_digit(std::string_view digits) {
    int sum = 0;
    int weight = 3;
    for (auto at = digits.rbegin(); at != digits.rend(); ++at) {
        sum += (*at - '0') * weight;
        weight = 4 - weight;
    }
    return static_cast<char>('0' + (10 - sum % 10) % 10);
}

std::string sscc_digits(std::string_view typed) {
    std::string_view rest = trimmed(typed);
    if (rest.starts_with("(00)"))
        rest.remove_prefix(4);
    std::string digits;
    std::copy_if(rest.begin(), rest.end(), std::back_inserter(digits), [](char c) { return c != ' '; });
    if (digits.size() == sscc_length + 2 && digits.starts_with("00"))
        digits.erase(0, 2);
    return digits;
}

std::optional<std::string> why_no_sscc(std::string_view digits) {
    if (digits.size() != sscc_length || !std::all_of(digits.begin(), digits.end(), is_digit))
        return fmt::format("\"{}\" was read; the {} digits of an SSCC are expected", excerpt(digits),
                           sscc_length);
    const char expected = gs1_check_digit(digits.substr(0, sscc_length - 1));
    if (digits.back() != expected)
        return fmt::format("the check digit of \"{}\" is wrong: {} is expected", digits, expected);
    return {};
}

std::string sscc_in_words(std::string_view digits) {
    constexpr std::size_t group = 4;
    std::string words;
    for (std::size_t at = 0; at < digits.size(); at += group)
        words += (at == 0 ? "" : " ") + std::string(digits.substr(at, group));
    return words;
}

std::string pallet_field(std::size_t place) { return fmt::format("Pallet {}", place + 1); }
std::string pallet_weight_field(std::size_t place) { return pallet_field(place) + ": weight"; }

std::vector<Pallet> read_pallets(std::span<const PalletDraft> drafts, Refusals& refusals) {
    std::vector<Pallet> pallets;
    for (std::size_t i = 0; i < drafts.size(); ++i) {
        const auto digits = sscc_digits(drafts[i].sscc);
        const auto mass = mass_of(drafts[i], i, refusals);
        if (digits.empty() && trimmed(drafts[i].kg).empty())
            continue;
        if (digits.empty())
            refusals.push_back(
                {pallet_field(i), "has a weight and no SSCC", "Scan its label, or take it off"});
        else if (const auto fault = why_no_sscc(digits))
            refusals.push_back({pallet_field(i), *fault, "Scan the label, or type the number once more"});
        else if (std::any_of(pallets.begin(), pallets.end(),
                             [&](const Pallet& p) { return p.sscc == digits; }))
            refusals.push_back(
                {pallet_field(i), fmt::format("{} stands twice", sscc_in_words(digits)), "Take it off once"});
        else
            pallets.push_back({digits, {}, mass});
    }
    return pallets;
}

} // namespace mellowbin
