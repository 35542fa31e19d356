#include "app/acts/begun.h"
#include "app/acts/notice.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/deliveries.h"
#include "app/models/intake.h"
#include "cli/grammar.h"
#include "cli/json_parts.h"
#include "cli/say.h"
#include "cli/text_table.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

// Deliveries as they came

ordered_json document_of(const DeliveryRow& row) {
    auto lots = list_of(row.lots, [](const DeliveredLot& lot) {
        return ordered_json{{"lot", lot.code}, {"flour", lot.flour}, {"received_kg", lot.kg}};
    });
    auto pallets = list_of(row.pallets, [](const DeliveredPallet& pallet) {
        return ordered_json{{"sscc", pallet.sscc}, {"lot", pallet.lot}, {"kg", json_of(pallet.kg)}};
    });
    const auto words_or_null = [](const std::string& words) {
        return words.empty() ? ordered_json(nullptr) : ordered_json(words);
    };
    return {{"delivery", row.id.number()},
            {"mill", row.mill},
            {"delivery_note", row.note},
            {"order", row.order},
            {"delivered_on", iso(row.delivered_on)},
            {"expected", words_or_null(row.expected)},
            {"expected_on", json_of(row.expected_on)},
            {"expected_kg", json_of(row.expected_kg)},
            {"on_note_kg", json_of(row.on_note_kg)},
            {"weighed_kg", json_of(row.weighed_kg)},
            {"lots_kg", row.lots_kg},
            {"weight_reason", row.weight_reason},
            {"remark", row.remark},
            {"who", row.who},
            {"logged_at", iso(row.at)},
            {"lots", std::move(lots)},
            {"pallets", std::move(pallets)}};
}

struct ListTyped {
    std::string mill;
    int count = 50;
};

int list_deliveries(Session& session, const ListTyped& typed) {
    const App app(session.set_up());
    const auto& mills = app.intake().records.mills;
    if (!typed.mill.empty() &&
        std::none_of(mills.begin(), mills.end(), [&](const Mill& mill) { return mill.name == typed.mill; }))
        throw Failed{fmt::format("Mill: \"{}\" is not known", typed.mill)};
    const auto rows = app.deliveries(typed.mill, typed.count);
    if (session.wants_json()) {
        session.out() << as_document(list_of(rows, [](const DeliveryRow& row) { return document_of(row); }));
        return done;
    }
    if (rows.empty()) {
        session.out() << "No delivery has come yet\n";
        return done;
    }
    TextTable table({{"no.", Side::right},
                     {"day", Side::left},
                     {"mill", Side::left},
                     {"note", Side::left},
                     {"order", Side::left},
                     {"for", Side::left},
                     {"lots", Side::right},
                     {"pallets", Side::right},
                     {"lots kg", Side::right},
                     {"note kg", Side::right}});
    for (const auto& row : rows)
        table.add({std::to_string(row.id.number()), iso(row.delivered_on), row.mill, row.note, row.order,
                   row.expected, std::to_string(row.lots.size()), std::to_string(row.pallets.size()),
                   fixed(row.lots_kg, 1), number_or_dash(row.on_note_kg, 1)});
    table.print(session.out());
    return done;
}

void print_delivery(std::ostream& out, const DeliveryRow& row) {
    say(out, "Delivery {}: {}\n", row.id.number(), came_in_words(row));
    say(out, "Logged by {}, {}\n", row.who, row.at_words);
    say(out, "Lots           {:>12} kg\n", fixed(row.lots_kg, 1));
    for (const auto& [label, kg] :
         {std::pair<std::string_view, std::optional<double>>{"On the note", row.on_note_kg},
          {"Weighed", row.weighed_kg},
          {"Expected", row.expected_kg}})
        if (kg)
            say(out, "{:<14} {:>12} kg\n", label, fixed(*kg, 1));
    if (!row.weight_reason.empty())
        say(out, "Weight let be: {}\n", row.weight_reason);
    if (!row.remark.empty())
        say(out, "Remark: {}\n", row.remark);
    for (const auto& lot : row.lots) {
        say(out, "\n{}  {}, {} kg\n", lot.code, lot.flour, fixed(lot.kg, 1));
        for (const auto& pallet : row.pallets)
            if (pallet.lot == lot.code)
                say(out, "  {}{}\n", sscc_in_words(pallet.sscc),
                    pallet.kg ? fmt::format("  {} kg", fixed(*pallet.kg, 1)) : "");
    }
}

struct OneTyped {
    std::int64_t number = 0;
};

int show_delivery(Session& session, const OneTyped& typed) {
    const App app(session.set_up());
    const auto row = app.delivery(DeliveryId{typed.number});
    if (!row)
        throw Failed{
            fmt::format("no delivery {} is in the book: see \"mellowbin deliveries\"", typed.number)};
    if (session.wants_json())
        session.out() << as_document(document_of(*row));
    else
        print_delivery(session.out(), *row);
    return done;
}

// Deliveries half logged

int list_begun(Session& session) {
    const App app(session.set_up());
    const auto& rows = app.intake().begun;
    if (session.wants_json()) {
        session.out() << as_document(list_of(rows, [](const BegunRow& row) {
            return ordered_json{{"begun", row.id.number()}, {"words", row.words}, {"holder", row.holder}};
        }));
        return done;
    }
    for (const auto& row : rows)
        say(session.out(), "{}  {}{}\n", row.id.number(), row.words,
            row.holder.empty() ? "" : "; " + row.holder);
    if (rows.empty())
        session.out() << "No delivery is begun and put aside\n";
    return done;
}

int throw_begun_away(Session& session, const OneTyped& typed) {
    App app(session.set_up());
    app.handle(ThrowBegunAway{{BegunId{typed.number}, 0}});
    return session.told(app);
}

} // namespace

void add_delivery_commands(Grammar& grammar) {
    auto list =
        grammar.command("deliveries", "List deliveries as they came, the newest first", list_deliveries);
    list.words.option("--mill", list.typed.mill, "Those of this mill alone");
    list.words.option("--count", list.typed.count, "At most so many").within(1, 100'000);
    auto one = grammar.command("delivery", "One delivery, with its lots, pallets and weights", show_delivery);
    one.words.option("number", one.typed.number, "Its number, as mellowbin deliveries shows it").required();
    grammar.command("begun", "List deliveries that are half logged and put aside", list_begun);
    auto away = grammar.command("throw-begun-away", "Nobody goes on with a delivery that was begun",
                                throw_begun_away);
    away.words.option("number", away.typed.number, "Its number, as mellowbin begun shows it").required();
}

} // namespace mellowbin::cli
