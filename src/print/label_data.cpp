#include "print/label_data.h"

#include "core/pallet.h"
#include "exchange/application_identifier.h"
#include "exchange/scan.h"

#include <fmt/format.h>

namespace mellowbin::print {
namespace {

using exchange::Element;
using exchange::Elements;

/// Filled up to the 14 digits that a symbol holds.
std::string gtin_14(const std::string& gtin) {
    const bool is_short = gtin.size() == 8 || gtin.size() == 12 || gtin.size() == 13;
    return is_short ? std::string(14 - gtin.size(), '0') + gtin : gtin;
}

std::string six_digits(Day day) {
    const date::year_month_day date{day};
    return fmt::format("{:02}{:02}{:02}", static_cast<int>(date.year()) % 100,
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

/// A symbol has two digits of the year: 49 years back and 50 ahead (GS1 General Specifications, 7.12).
bool is_within_the_century(Day day, Day today) {
    const auto years = static_cast<int>(date::year_month_day{day}.year()) -
                       static_cast<int>(date::year_month_day{today}.year());
    return years >= -49 && years <= 50;
}

/// Net weight in kg, its identifier's last digit the decimals: as many as six digits have room for.
std::optional<Element> net_weight(Grams net) {
    constexpr std::int64_t most = 999'999;
    std::int64_t figure = net.count();
    for (int decimals = 3; decimals >= 0; --decimals) {
        if (figure <= most)
            return Element{fmt::format("310{}", decimals), fmt::format("{:06}", figure)};
        if (figure % 10 != 0)
            break;
        figure /= 10;
    }
    return {};
}

class Gathering {
public:
    Gathering(LabelData& data, Day today) : data_(data), today_(today) {}
    void day(const char* identifier, const char* name, const std::optional<Day>& day) {
        if (!day)
            return;
        if (is_within_the_century(*day, today_))
            data_.elements.push_back({identifier, six_digits(*day)});
        else
            data_.left_out.push_back(fmt::format("{}: a symbol holds no day so far from today", name));
    }
    void net(const std::optional<Grams>& net) {
        if (!net || net->count() <= 0)
            return;
        if (auto element = net_weight(*net))
            data_.elements.push_back(*std::move(element));
        else
            data_.left_out.push_back("weight: a symbol holds six digits of it");
    }
    void lot(const std::string& lot) {
        if (const auto why = exchange::why_not_on_label(lot))
            data_.left_out.push_back("lot number: " + *why);
        else if (!lot.empty())
            data_.elements.push_back({"10", lot});
    }

private:
    LabelData& data_;
    Day today_;
};

std::size_t characters_of(const Elements& elements) {
    std::size_t sum = 0;
    for (const auto& one : elements) {
        sum += one.identifier.size() + one.value.size();
        const bool is_last = &one == &elements.back();
        if (!is_last && !exchange::application_identifier(one.identifier)->is_predefined)
            ++sum; // the separator
    }
    return sum;
}

double width_of(const exchange::Symbol& symbol) {
    return static_cast<double>(symbol.columns + 2 * symbol.quiet) * bar_module_mm;
}

std::string words_of(const Elements& elements) {
    std::string words;
    for (const auto& one : elements)
        words += fmt::format("{}({}) {}", words.empty() ? "" : " ", one.identifier, one.value);
    return words;
}

/// Nothing where they do not go into one symbol of this width.
std::optional<Bars> one_symbol(const Elements& elements, double width_mm) {
    if (characters_of(elements) > most_characters)
        return {};
    auto symbol = exchange::symbol_of(exchange::SymbolKind::gs1_128, elements);
    if (!symbol || width_of(*symbol) > std::min(width_mm, longest_bars_mm))
        return {};
    return Bars{*std::move(symbol), words_of(elements)};
}

Refusal too_wide(const Element& element, double width_mm) {
    const auto symbol = exchange::symbol_of(exchange::SymbolKind::gs1_128, Elements{element});
    if (!symbol)
        return symbol.refusals().front();
    return {"Label",
            fmt::format("({}) {} is {:.0f} mm wide as bars, and the label has room for {:.0f}",
                        element.identifier, element.value, width_of(*symbol), width_mm),
            "Use a wider label"};
}

} // namespace

Result<LabelData> label_data(const LabelledFlour& flour, Day today) {
    Refusals refusals;
    const auto gtin = gtin_14(flour.gtin);
    if (!flour.sscc.empty())
        if (const auto why = why_no_sscc(flour.sscc))
            refusals.push_back({"SSCC", *why, "Scan the pallet's label"});
    if (!gtin.empty())
        if (const auto why = exchange::fault_of(*exchange::application_identifier("01"), gtin))
            refusals.push_back({"GTIN", *why, "Write its 8, 12, 13 or 14 digits"});
    if (flour.count && (*flour.count < 1 || gtin.empty() || flour.sscc.empty()))
        refusals.push_back({"Bags", "are told in a symbol only beside the bag's GTIN and the pallet's SSCC",
                            "Leave them out, or say the GTIN"});
    if (!refusals.empty())
        return refusals;
    LabelData data;
    if (!flour.sscc.empty())
        data.elements.push_back({"00", flour.sscc});
    if (!gtin.empty())
        data.elements.push_back({flour.count ? "02" : "01", gtin});
    Gathering gathering(data, today);
    gathering.day("11", "milled on", flour.milled_on);
    gathering.day("15", "best before", flour.best_before);
    gathering.net(flour.net);
    if (flour.count)
        data.elements.push_back({"37", std::to_string(*flour.count)});
    gathering.lot(flour.lot);
    return data;
}

Result<std::vector<Bars>> bars_of(const exchange::Elements& elements, double width_mm) {
    std::vector<Bars> all;
    Elements together;
    const auto finish = [&] {
        if (!together.empty())
            all.push_back(*one_symbol(together, width_mm));
        together.clear();
    };
    for (const auto& element : elements) {
        if (!one_symbol({element}, width_mm))
            return too_wide(element, width_mm);
        auto more = together;
        more.push_back(element);
        const bool is_pallets = element.identifier == "00";
        if (!is_pallets && one_symbol(more, width_mm)) {
            together = std::move(more);
            continue;
        }
        finish();
        together = {element};
        if (is_pallets)
            finish();
    }
    finish();
    return all;
}

} // namespace mellowbin::print
