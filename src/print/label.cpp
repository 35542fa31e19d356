#include "print/label.h"

#include "core/decimal.h"
#include "core/pallet.h"

#include <fmt/format.h>

#include <cmath>

namespace mellowbin::print {
namespace {

constexpr double margin = bar_module_mm * 10; // mm: no less than the quiet zone of bars
constexpr double square_module_mm = 0.75;     // six dots of a printer of 203 dpi
constexpr double square_quiet_mm = 2; // a module at least (ISO/IEC 16022), more for a label that moves

std::string kg(Grams net) {
    return fixed(static_cast<double>(net.count()) / 1000, net.count() % 1000 == 0 ? 0 : 3) + " kg";
}

struct Said {
    std::string words;
    double points;
    bool is_bold = false;
};

std::vector<Said> said_of(const LabelledFlour& flour, const LabelData& data, double large) {
    std::vector<Said> all;
    const auto say = [&](const std::string& words, double points, bool is_bold = false) {
        if (!words.empty())
            all.push_back({words, points, is_bold});
    };
    const auto fact = [&](const char* name, const std::string& words) {
        if (!words.empty())
            say(fmt::format("{} {}", name, words), large / 2);
    };
    say(flour.plant, large / 3);
    say(flour.lot, large, true);
    say(flour.flour, large / 1.7, true);
    say(flour.mill, large / 2);
    fact("Milled on", flour.milled_on ? iso(*flour.milled_on) : "");
    fact("Best before", flour.best_before ? iso(*flour.best_before) : "");
    say(flour.remark, large / 2);
    fact("Net", flour.net ? kg(*flour.net) : "");
    fact("Lies in", flour.place);
    fact("Pallet", flour.sscc.empty() ? "" : sscc_in_words(flour.sscc));
    for (const auto& words : data.left_out)
        say("In words only, not in the symbols: " + words, large / 3);
    if (flour.gtin.empty())
        say("No GTIN: the symbols are for this plant's scanners", large / 3);
    return all;
}

/// One beneath the other; where the last one ends.
double draw(const std::vector<Said>& said, Drawing& drawing, double width_mm) {
    double y = margin;
    for (const auto& one : said) {
        const auto text = drawing.typesetter().set(one.words, {one.points, one.is_bold}, width_mm);
        drawing.text(text, margin, y);
        y += text.height_mm() + 0.5;
    }
    return y;
}

/// Down to whole dots of a printer that has eight a mm.
double on_a_dot(double mm) { return std::ceil(mm * 8) / 8; }

Refusal too_small(PageSize size, double height_mm) {
    return {"Label",
            fmt::format("{:.0f} by {:.0f} mm is too small: what is on it is {:.0f} mm high", size.width_mm,
                        size.height_mm, height_mm),
            "Use a larger label, or paper"};
}

Refusal too_narrow(PageSize size) {
    return {"Label",
            fmt::format("{:.0f} by {:.0f} mm is too narrow for the words beside the square symbol",
                        size.width_mm, size.height_mm),
            "Use a wider label, or paper"};
}

/// Words at the left, the square symbol at the right; where the lower of them ends.
Result<double> draw_head(const LabelledFlour& flour, const LabelData& data, double large, PageSize size,
                         Drawing& drawing) {
    if (data.elements.empty())
        return draw(said_of(flour, data, large), drawing, size.width_mm - 2 * margin);
    const auto square = exchange::symbol_of(exchange::SymbolKind::gs1_data_matrix, data.elements);
    if (!square)
        return square.refusals();
    const double side = static_cast<double>(square->columns) * square_module_mm;
    const double x = std::floor((size.width_mm - margin - side) * 8) / 8;
    const double width = x - square_quiet_mm - margin;
    constexpr double least = 25; // mm of words
    if (width < least)
        return too_narrow(size);
    drawing.symbol(*square, x, margin, square_module_mm, square_module_mm);
    const double words = draw(said_of(flour, data, large), drawing, width);
    return std::max(words, margin + side + square_quiet_mm);
}

/// Rows of bars beneath each other, each with its words; where the last one ends.
double draw_bars(const std::vector<Bars>& all, double y, PageSize size, Drawing& drawing) {
    for (const auto& bars : all) {
        y = on_a_dot(y);
        drawing.symbol(bars.symbol, margin, y, bar_module_mm, bar_height_mm);
        y += bar_height_mm + 0.5;
        const auto words = drawing.typesetter().set(bars.words, {9}, size.width_mm - 2 * margin);
        drawing.text(words, margin, y);
        y += words.height_mm() + 2;
    }
    return y;
}

Drawing begun(const LabelledFlour& flour, const char* what, PageSize size, Instant made_at) {
    Drawing drawing(fmt::format("{} {}", what, flour.lot), made_at);
    drawing.begin_page(size);
    return drawing;
}

Result<Drawing> finished(Drawing drawing, double end, PageSize size) {
    if (!drawing.typesetter().faults().empty())
        return drawing.typesetter().faults();
    if (end > size.height_mm - margin / 2)
        return too_small(size, end + margin / 2);
    return drawing;
}

/// With words as large as there is room for.
template <class Draw> Result<Drawing> as_large_as_fits(Draw draw) {
    for (const double points : {26.0, 20.0})
        if (auto drawing = draw(points))
            return drawing;
    return draw(15.0); // still read at arm's length
}

Result<Drawing> with_bars(const LabelledFlour& flour, const LabelData& data, PageSize size, Instant made_at,
                          double points) {
    auto drawing = begun(flour, "Pallet label", size, made_at);
    const auto head = draw_head(flour, data, points, size, drawing);
    if (!head)
        return head.refusals();
    const auto bars = bars_of(data.elements, size.width_mm);
    if (!bars)
        return bars.refusals();
    const double end = draw_bars(*bars, *head + 1, size, drawing); // mm apart
    return finished(std::move(drawing), end, size);
}

Result<Drawing> without_bars(const LabelledFlour& flour, const LabelData& data, PageSize size,
                             Instant made_at, double points) {
    auto drawing = begun(flour, "Bag label", size, made_at);
    const auto head = draw_head(flour, data, points, size, drawing);
    if (!head)
        return head.refusals();
    return finished(std::move(drawing), *head, size);
}

} // namespace

Result<Drawing> pallet_label(const LabelledFlour& flour, PageSize size, Instant made_at, Day today) {
    const auto data = label_data(flour, today);
    if (!data)
        return data.refusals();
    return as_large_as_fits([&](double points) { return with_bars(flour, *data, size, made_at, points); });
}

Result<Drawing> bag_label(const LabelledFlour& flour, PageSize size, Instant made_at, Day today) {
    auto bag = flour;
    bag.sscc.clear();
    bag.count.reset();
    const auto data = label_data(bag, today);
    if (!data)
        return data.refusals();
    return as_large_as_fits([&](double points) { return without_bars(bag, *data, size, made_at, points); });
}

} // namespace mellowbin::print
