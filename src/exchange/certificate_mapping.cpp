#include "exchange/certificate_mapping.h"

#include "core/names.h"

#include <algorithm>
#include <array>

namespace mellowbin::exchange {
namespace {

constexpr std::array orders{
    Named<DateOrder>{DateOrder::not_known, "", "not known"},
    Named<DateOrder>{DateOrder::day_first, "day_first", "day first"},
    Named<DateOrder>{DateOrder::month_first, "month_first", "month first"},
};
constexpr std::array marks{
    Named<DecimalMark>{DecimalMark::not_known, "", "not known"},
    Named<DecimalMark>{DecimalMark::point, "point", "point"},
    Named<DecimalMark>{DecimalMark::comma, "comma", "comma"},
};

} // namespace

std::string_view key_of(DateOrder order) { return row_of(orders, order).key; }
std::string_view key_of(DecimalMark mark) { return row_of(marks, mark).key; }
DateOrder date_order_from_key(std::string_view key) {
    return from_key(orders, key).value_or(DateOrder::not_known);
}
DecimalMark decimal_mark_from_key(std::string_view key) {
    return from_key(marks, key).value_or(DecimalMark::not_known);
}

const LabelMeaning* label_in(const CertificateMapping& mapping, std::string_view folded_label) {
    const auto at = std::find_if(mapping.labels.begin(), mapping.labels.end(),
                                 [&](const LabelMeaning& label) { return label.label == folded_label; });
    return at == mapping.labels.end() ? nullptr : &*at;
}

CertificateMapping with_learned(CertificateMapping earlier, const CertificateMapping& later) {
    for (const auto& label : later.labels) {
        const auto at = std::find_if(earlier.labels.begin(), earlier.labels.end(),
                                     [&](const LabelMeaning& known) { return known.label == label.label; });
        if (at == earlier.labels.end())
            earlier.labels.push_back(label);
        else
            *at = label;
    }
    for (const auto& name : later.names) {
        const auto at =
            std::find_if(earlier.names.begin(), earlier.names.end(), [&](const NameMeaning& known) {
                return known.field == name.field && known.name == name.name;
            });
        if (at == earlier.names.end())
            earlier.names.push_back(name);
        else
            *at = name;
    }
    if (later.dates != DateOrder::not_known)
        earlier.dates = later.dates;
    if (later.decimals != DecimalMark::not_known)
        earlier.decimals = later.decimals;
    return earlier;
}

} // namespace mellowbin::exchange
