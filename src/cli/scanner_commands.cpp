#include "app/acts/intake.h"
#include "app/acts/notice.h"
#include "app/acts/read_scan.h"
#include "app/acts/scanner.h"
#include "app/acts/settings.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/intake.h"
#include "app/models/settings.h"
#include "cli/grammar.h"
#include "cli/json_parts.h"
#include "cli/say.h"

#include <fmt/format.h>

#include <algorithm>
#include <istream>
#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

struct TestTyped {
    bool draws = false, sets_separator = false;
};

/// Two rows of modules in a line of characters, black on white whatever the terminal's colours are.
void draw(const exchange::Symbol& symbol, std::ostream& out) {
    const auto is_dark = [&](std::size_t column, std::size_t row) {
        const bool is_inside = row >= symbol.quiet && row < symbol.quiet + symbol.rows &&
                               column >= symbol.quiet && column < symbol.quiet + symbol.columns;
        return is_inside && symbol.is_dark(column - symbol.quiet, row - symbol.quiet);
    };
    for (std::size_t row = 0; row < symbol.rows + 2 * symbol.quiet; row += 2) {
        say(out, "\033[30;107m");
        for (std::size_t column = 0; column < symbol.columns + 2 * symbol.quiet; ++column) {
            const bool upper = is_dark(column, row), lower = is_dark(column, row + 1);
            say(out, "{}", upper ? (lower ? "█" : "▀") : lower ? "▄" : " ");
        }
        say(out, "\033[0m\n");
    }
}

std::string line_from(const Session& session) {
    std::string line;
    if (!session.world().in || !std::getline(*session.world().in, line))
        throw Failed{"nothing was read: scan a test symbol, or give its text on standard input"};
    while (!line.empty() && line.back() == '\r')
        line.pop_back();
    return line;
}

void tell(const Session& session, const ScannerHeard& heard) {
    static constexpr const char* standings[] = {"well", "mind", "wrong"};
    if (!session.wants_json()) {
        for (const auto& line : heard.lines)
            say(session.out(), "{:<8}{}: {}\n", standings[static_cast<int>(line.standing)], line.what,
                line.words);
        return;
    }
    auto lines = list_of(heard.lines, [](const exchange::TestLine& line) {
        return ordered_json{{"what", line.what},
                            {"standing", standings[static_cast<int>(line.standing)]},
                            {"words", line.words}};
    });
    session.out() << as_document(
        {{"lines", std::move(lines)},
         {"separator_to_set", heard.separator ? ordered_json(*heard.separator) : ordered_json(nullptr)}});
}

/// What standard input has is judged as a scan; of its speed nothing is known here.
int scanner_test(Session& session, const TestTyped& typed) {
    App app(session.set_up());
    if (typed.draws)
        draw(exchange::test_symbols().front().symbol, session.out());
    app.handle(JudgeTestScan{{line_from(session), Scanned::Way::keys, Scanned::End::enter, {}}});
    const auto heard = app.settings().scanner.heard;
    tell(session, heard);
    if (typed.sets_separator && heard.separator) {
        app.handle(ChangeSetting{"scanner_separator", *heard.separator});
        return session.told(app);
    }
    const bool is_well = std::none_of(heard.lines.begin(), heard.lines.end(), [](const auto& line) {
        return line.standing == exchange::Standing::wrong;
    });
    return is_well ? done : not_done;
}

struct ScanTyped {
    std::string scan;
    bool is_whole = false, is_parted = false;
};

ordered_json text_or_null(const std::string& text) {
    return text.empty() ? ordered_json(nullptr) : ordered_json(text);
}

void tell_label(const Session& session, const LotDraft& lot, const LabelOfPallet& pallet) {
    const std::pair<const char*, std::string> facts[] = {
        {"lot", lot.code},
        {"milled_on", lot.milled_on},
        {"best_before", lot.best_before},
        {"weight_kg", lot.mass_kg},
        {"sscc", pallet.sscc},
        {"gtin", pallet.gtin},
        {"order", pallet.order},
        {"purchased_from", pallet.from},
        {"net", pallet.net_words},
        {"count", pallet.count ? std::to_string(*pallet.count) : std::string()}};
    if (session.wants_json()) {
        ordered_json json;
        for (const auto& [name, value] : facts)
            json[name] = text_or_null(value);
        session.out() << as_document(json);
        return;
    }
    for (const auto& [name, value] : facts)
        if (!value.empty())
            say(session.out(), "{:<16}{}\n", name, value);
}

/// What a label says, as Intake reads it; nothing is taken in.
int read_scan(Session& session, const ScanTyped& typed) {
    App app(session.set_up());
    ReadScan scan{typed.scan, ReadScan::At::intake};
    scan.plain = ReadLabel::Plain::is_lot_number;
    scan.reading = typed.is_whole    ? ReadLabel::Reading::whole
                   : typed.is_parted ? ReadLabel::Reading::parted
                                     : ReadLabel::Reading::asked;
    app.handle(scan);
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    const auto& intake = app.intake();
    if (!intake.doubt.scan.empty())
        throw Failed{fmt::format("is that \"{}\" (--whole), or did the scanner lose a separator: \"{}\" "
                                 "(--parted)?",
                                 intake.doubt.as_read, intake.doubt.otherwise)};
    tell_label(session, intake.label, intake.pallet);
    return done;
}

} // namespace

void add_scanner_commands(Grammar& grammar) {
    auto test = grammar.command("scanner-test", "Judge by one scan of a test symbol how a scanner is set",
                                scanner_test);
    test.words.flag("--draw", test.typed.draws, "Draw the symbol to be scanned");
    test.words.flag("--set-separator", test.typed.sets_separator,
                    "Set what came in place of the separator as the plant's");
    test.words.footer("Reads a line from standard input: scan the symbol here, or on Settings > Scanner.");
    auto scan = grammar.command("read-scan", "What a label says, as Intake reads it", read_scan);
    scan.words.option("scan", scan.typed.scan, "An element string, a Digital Link, or (10)… typed by hand")
        .required();
    auto whole = scan.words.flag("--whole", scan.typed.is_whole, "The lot number is as it was read");
    scan.words.flag("--parted", scan.typed.is_parted, "A separator was lost: what looks like a date is one")
        .excludes(whole);
}

} // namespace mellowbin::cli
