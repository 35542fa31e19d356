#include "exchange/test_scan.h"

#include "core/promised.h"
#include "core/typed_text.h"
#include "exchange/alignment.h"
#include "exchange/application_identifier.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::exchange {
namespace {

constexpr std::string_view separator = "\x1d";

std::string printed(const Elements& elements) {
    std::string words;
    for (const auto& one : elements)
        words += fmt::format("{}({}) {}", words.empty() ? "" : " ", one.identifier, one.value);
    return words;
}

TestSymbol made(SymbolKind kind, Elements elements) {
    auto symbol = symbol_of(kind, elements);
    promised(static_cast<bool>(symbol));
    auto words = printed(elements);
    return {kind, std::move(elements), std::move(words), std::move(*symbol)};
}

/// As a scanner sends it, without an identifier.
std::vector<std::string> sent(const TestSymbol& symbol) {
    std::string text;
    for (const auto& one : symbol.elements) {
        text += one.identifier + one.value;
        const bool has_more = &one != &symbol.elements.back();
        if (has_more && !application_identifier(one.identifier)->is_predefined)
            text += separator;
    }
    return characters_of(text);
}

/// What came, beside what the symbol holds.
struct Compared {
    std::vector<std::string> expected;
    Alignment read;
    std::string identifier, in_front; ///< before the data: "]d2", or something else
    std::string separator;            ///< what came in its place

    [[nodiscard]] std::size_t size() const { return expected.size(); }
};

bool is_identifier_letter(char c) { return std::string_view("CdeQJcDEqj").find(c) != std::string_view::npos; }

void read_front(Compared& all) {
    const auto front = characters_of(all.read.before.front());
    const bool is_identifier = front.size() == 3 && front[1].size() == 1 &&
                               is_identifier_letter(front[1].front()) && front[0] != separator;
    (is_identifier ? all.identifier : all.in_front) = all.read.before.front();
    if (all.in_front == separator)
        all.in_front.clear(); // some readers send the start so; it says nothing
}

void read_separator(Compared& all) {
    for (std::size_t i = 0; i < all.size(); ++i)
        if (all.expected[i] == separator)
            all.separator = all.read.before[i] + all.read.came[i] + all.read.before[i + 1];
}

Compared compared(const TestSymbol& symbol, std::string_view came) {
    Compared all;
    all.expected = sent(symbol);
    all.read = aligned(all.expected, characters_of(came));
    read_front(all);
    read_separator(all);
    return all;
}

/// Of the test symbols the one that it is; nothing: it is another symbol.
std::optional<Compared> recognised(std::string_view came) {
    std::optional<Compared> best;
    const auto length = characters_of(came).size();
    const auto share = [&](const Compared& one) {
        return static_cast<double>(one.read.alike) / static_cast<double>(std::max(one.size(), length));
    };
    for (const auto& symbol : test_symbols()) {
        auto one = compared(symbol, came);
        if (!best || share(one) > share(*best))
            best = std::move(one);
    }
    constexpr double enough = 0.4; // of a French keyboard, which has hardly a sign where others have it
    return best && share(*best) >= enough ? best : std::nullopt;
}

TestLine separator_line(const Compared& all, const ScannerSetup& setup, std::optional<std::string>& offered) {
    const auto& came = all.separator;
    if (came == separator && setup.separator.empty())
        return {"Separator", "arrives"};
    if (came.empty())
        return {"Separator",
                "is lost: where a label has two values one behind the other, they are read as one. Have the "
                "scanner send Ctrl+] or one of ~ | ^ for GS, or use a serial port",
                Standing::wrong};
    if (came == setup.separator)
        return {"Separator", fmt::format("arrives as {}, as it is set", came)};
    const auto words = came == separator ? std::string("itself") : "\"" + excerpt(came) + "\"";
    if (came != separator && !may_part_elements(came))
        return {"Separator",
                fmt::format("arrives as {}, which a lot number may have: have the scanner send ~, | or ^ "
                            "instead",
                            words),
                Standing::wrong};
    offered = came == separator ? std::string() : came;
    return {"Separator",
            fmt::format("arrives as {}, and {} is expected", words,
                        setup.separator.empty() ? "itself" : "\"" + setup.separator + "\""),
            Standing::wrong};
}

TestLine identifier_line(const Compared& all) {
    if (!all.in_front.empty())
        return {"Symbology identifier",
                fmt::format("\"{}\" stands in front of the data: switch off the scanner's own prefix",
                            excerpt(all.in_front)),
                Standing::wrong};
    if (all.identifier.empty())
        return {"Symbology identifier",
                "is not sent: labels are read all the same, but a text that only looks like one is told from "
                "it by this sign alone. Switch on the AIM identifier",
                Standing::mind};
    return {"Symbology identifier", fmt::format("is sent: {}", excerpt(all.identifier))};
}

struct Letters {
    std::size_t small = 0, capitals = 0, small_turned = 0, capitals_turned = 0;
};

Letters letters_of(const Compared& all) {
    Letters letters;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto &expected = all.expected[i], &came = all.read.came[i];
        const char c = expected.front();
        const bool is_small = c >= 'a' && c <= 'z', is_capital = c >= 'A' && c <= 'Z';
        if (came.size() != 1 || (!is_small && !is_capital))
            continue;
        const char d = came.front();
        const bool came_small = d >= 'a' && d <= 'z', came_capital = d >= 'A' && d <= 'Z';
        (is_small ? letters.small : letters.capitals) += came_small || came_capital ? 1 : 0;
        letters.small_turned += is_small && came_capital ? 1 : 0;
        letters.capitals_turned += is_capital && came_small ? 1 : 0;
    }
    return letters;
}

TestLine letters_line(const Compared& all) {
    const auto letters = letters_of(all);
    if (letters.small_turned + letters.capitals_turned == 0)
        return {"Letters", "small and capital ones arrive as they are"};
    if (letters.small_turned == letters.small && letters.capitals_turned == letters.capitals)
        return {"Letters", "small and capital ones are exchanged: Caps Lock is on", Standing::wrong};
    if (letters.small_turned == letters.small)
        return {"Letters", "all arrive as capitals: set the scanner to leave them as they are",
                Standing::wrong};
    if (letters.capitals_turned == letters.capitals)
        return {"Letters", "all arrive small: set the scanner to leave them as they are", Standing::wrong};
    return {"Letters", "some arrive in the other case: let go of Shift, and scan once more", Standing::wrong};
}

bool is_same(const std::string& expected, const std::string& came) {
    return lower_case(expected) == lower_case(came);
}

TestLine layout_line(const Compared& all) {
    std::string turned, lost;
    std::vector<std::string> told;
    const auto add = [](std::string& words, const std::string& more) {
        words += (words.empty() ? "" : ", ") + more;
    };
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto sign = lower_case(all.expected[i]);
        const auto& came = all.read.came[i];
        const bool is_told = std::find(told.begin(), told.end(), sign) != told.end();
        if (sign == separator || is_same(sign, came) || is_told)
            continue;
        told.push_back(sign);
        if (came.empty())
            add(lost, sign);
        else
            add(turned, fmt::format("{} as {}", sign, lower_case(came)));
    }
    if (!all.identifier.empty() && !all.identifier.starts_with(']'))
        add(turned, fmt::format("] as {}", characters_of(all.identifier).front()));
    if (turned.empty() && lost.empty())
        return {"Keyboard layout", "is right"};
    auto words = turned.empty() ? std::string("is not the scanner's") : "is not the scanner's: " + turned;
    if (!lost.empty())
        words += (turned.empty() ? ": lost " : "; lost ") + lost;
    return {"Keyboard layout", words + ". Set the scanner to this computer's keyboard, or use a serial port",
            Standing::wrong};
}

TestLine speed_line(const Arrival& arrival, double longest_gap) {
    if (arrival.way == Arrival::Way::port)
        return {"Speed", "through the port, whole"};
    const auto most = longest_gap * 1000;
    if (arrival.way == Arrival::Way::slow_keys)
        return {"Speed",
                fmt::format("its keys came no faster than a person's, more than {:.0f} ms apart: it is not "
                            "kept out of fields. Set the scanner to no pause between keys",
                            most),
                Standing::wrong};
    if (!arrival.seconds_a_key)
        return {"Speed", "is not known here"};
    const double gap = *arrival.seconds_a_key * 1000;
    constexpr double near = 0.75;
    if (gap > near * most)
        return {"Speed",
                fmt::format("{:.0f} ms from key to key, and up to {:.0f} ms are a scanner's: set it faster",
                            gap, most),
                Standing::mind};
    return {"Speed", gap < 1 ? std::string("less than 1 ms from key to key")
                             : fmt::format("{:.0f} ms from key to key", gap)};
}

TestLine end_line(const Arrival& arrival) {
    switch (arrival.end) {
    case Arrival::End::enter:
        return {"End", "Enter ends the scan"};
    case Arrival::End::tab:
        return {"End", "Tab ends the scan"};
    case Arrival::End::line:
        return {"End", "a line end ends the scan"};
    case Arrival::End::pause:
        break;
    }
    return {"End", "nothing ends the scan, only the pause behind it. Have the scanner send Enter",
            Standing::mind};
}

} // namespace

const std::vector<TestSymbol>& test_symbols() {
    // The two AIs behind each other have values of any length, so that only a separator parts them. All
    // signs of set 82 but digits and letters are in the first; bars have room for those that differ most
    // from layout to layout.
    static const std::vector<TestSymbol> symbols{
        made(SymbolKind::gs1_data_matrix,
             {{"01", "09521234543213"}, {"10", "AaBbMmQqWwXxYyZz0678"}, {"21", "!\"%&'()*+,-./:;<=>?_"}}),
        made(SymbolKind::gs1_128, {{"10", "QqZzYy-_"}, {"400", "/:;?'+*="}})};
    return symbols;
}

bool may_part_elements(std::string_view sent) {
    constexpr std::size_t longest = 4;
    return !sent.empty() && (sent == "<GS>" || (sent.size() <= longest && !is_of_set_82(sent)));
}

bool TestVerdict::is_well() const {
    return std::none_of(lines.begin(), lines.end(),
                        [](const TestLine& line) { return line.standing == Standing::wrong; });
}

TestVerdict judge_test_scan(const Arrival& arrival, const ScannerSetup& setup, double longest_gap) {
    std::string came = arrival.bytes;
    for (auto at = came.find(shown_separator); at != std::string::npos; at = came.find(shown_separator))
        came.replace(at, shown_separator.size(), 1, group_separator);
    const auto all = recognised(came);
    if (!all)
        return {{{"Scan",
                  fmt::format("\"{}\" was read, which is none of the test symbols", excerpt(arrival.bytes)),
                  Standing::wrong}},
                {}};
    TestVerdict verdict;
    verdict.lines.push_back(separator_line(*all, setup, verdict.separator));
    verdict.lines.push_back(identifier_line(*all));
    verdict.lines.push_back(letters_line(*all));
    verdict.lines.push_back(layout_line(*all));
    verdict.lines.push_back(speed_line(arrival, longest_gap));
    verdict.lines.push_back(end_line(arrival));
    return verdict;
}

} // namespace mellowbin::exchange
