#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// How a mill writes what can be read two ways; asked until a paper of its own or a person says it.
enum class DateOrder { not_known, day_first, month_first };
enum class DecimalMark { not_known, point, comma };
std::string_view key_of(DateOrder order);
std::string_view key_of(DecimalMark mark);
DateOrder date_order_from_key(std::string_view key);     ///< not_known for any other
DecimalMark decimal_mark_from_key(std::string_view key); ///< not_known for any other

/// What a label of a mill's papers means, and what the papers leave unsaid of it.
struct LabelMeaning {
    std::string label; ///< folded(), by which it is found again
    std::string shown; ///< as it stood on the paper
    std::string means; ///< key of a Meaning, or left_out_key
    std::string unit;  ///< key of a unit, where the papers print none
    std::string basis; ///< as read_basis() reads it, where the papers print none
    std::string method;
    std::string nitrogen_factor; ///< of protein

    friend bool operator==(const LabelMeaning&, const LabelMeaning&) = default;
};

/// What a mill calls a flour, or itself, and what the plant calls it.
struct NameMeaning {
    std::string field; ///< key of the lot fact: "mill", "flour", "place"
    std::string name;  ///< folded()
    std::string shown; ///< as it stood on the paper
    std::string means; ///< the plant's name

    friend bool operator==(const NameMeaning&, const NameMeaning&) = default;
};

/// All that was learned of a mill's papers. What a paper prints wins over what stands here.
struct CertificateMapping {
    std::vector<LabelMeaning> labels; ///< one a label
    std::vector<NameMeaning> names;
    DateOrder dates = DateOrder::not_known;
    DecimalMark decimals = DecimalMark::not_known;

    friend bool operator==(const CertificateMapping&, const CertificateMapping&) = default;
};

/// The label's meaning in it; null where it has none.
const LabelMeaning* label_in(const CertificateMapping& mapping, std::string_view folded_label);
/// Earlier learned, with what a later paper taught put over it: labels and names that both have are the
/// later's.
CertificateMapping with_learned(CertificateMapping earlier, const CertificateMapping& later);

} // namespace mellowbin::exchange
