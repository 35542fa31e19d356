// Lots that were used up are let go from what doughs taught. That must change nothing that a card or a lever
// reads, in whatever order things are said, taken back and found again.
#include "app/acts/batches.h"
#include "app/acts/give_lot.h"
#include "app/acts/intent.h"
#include "app/acts/stock.h"
#include "app/book/beliefs.h"
#include "app/models/card.h"
#include "small_plant.h"
#include "support/catch.h"

#include <algorithm>
#include <cmath>
#include <random>

using namespace mellowbin;
using namespace mellowbin::app;

namespace {

constexpr ProductId pan{1}, bun{2};
constexpr int all_lines = 2;

/// A book with a run of each of two products on each of two lines, and what was mixed of them.
struct Bakery {
    Book book;

    Bakery() {
        for (const auto product : {pan, bun}) {
            book.products.push_back({});
            book.products.back().id = product;
        }
        for (int line = 1; line <= all_lines; ++line) {
            book.lines.push_back({});
            book.lines.back().id = LineId{line};
            for (const auto product : {pan, bun})
                book.runs.push_back({RunId{static_cast<std::int64_t>(book.runs.size()) + 1}, "R", product,
                                     LineId{line}, day_from_iso("2026-03-01"), 1, 1, Grams{0}});
        }
    }
    LotId take_in() {
        book.lots.push_back({});
        book.lots.back().id = LotId{static_cast<std::int64_t>(book.lots.size())};
        book.lots.back().state = LotState::released;
        return book.lots.back().id;
    }
    void becomes(LotId lot, LotState state) { book.lots.at(lot.number() - 1).state = state; }
    Batch& mix(ProductId product, const std::vector<LotId>& lots, double points, int line = 1) {
        Batch batch;
        batch.id = BatchId{static_cast<std::int64_t>(book.batches.size()) + 1};
        batch.run = RunId{2 * (line - 1) + product.number()};
        batch.at = at;
        for (const auto lot : lots)
            batch.flour.push_back({lot, Grams{100'000}});
        batch.farinograph = Absorption14{61};
        batch.absorption = Absorption14{61 + points};
        book.batches.push_back(batch);
        return book.batches.back();
    }
    /// So many doughs of a lot that comes for them and is used up by them.
    LotId mix_of_a_lot(ProductId product, int batches, double points = 2) {
        const auto lot = take_in();
        for (int i = 0; i < batches; ++i)
            mix(product, {lot}, points).result.feel = Feel::right;
        becomes(lot, LotState::used_up);
        return lot;
    }
    Instant at = instant_from_iso("2026-03-01T06:00:00Z");
};

Doughs started(const Book& book) {
    Doughs doughs;
    doughs.follow(book);
    return doughs;
}

/// As if every lot were in stock still: no lot is let go.
Doughs of_everything(Book book) {
    for (auto& lot : book.lots)
        lot.state = LotState::released;
    auto doughs = started(book);
    for (const auto& lot : book.lots)
        REQUIRE_FALSE(doughs.water().was_let_go(lot.id));
    return doughs;
}

double deviation(const Doughs& doughs, LotId lot) {
    const std::vector<dough::LotShare> alone{{lot, 1}};
    return doughs.water().predict(pan, LineId{1}, alone, day_from_iso("2026-04-01")).deviation.value();
}

/// The largest difference in what is believed of any two of the lots together, by any product and line.
double difference(const Doughs& one, const Doughs& other, const std::vector<LotId>& lots) {
    double largest = 0;
    for (const auto product : {pan, bun})
        for (int line = 1; line <= all_lines; ++line)
            for (const auto a : lots)
                for (const auto b : lots) {
                    std::vector<dough::LotShare> shares{{a, 1}};
                    if (a != b)
                        shares = {{a, 0.4}, {b, 0.6}};
                    const auto of = [&](const Doughs& doughs) {
                        return doughs.water().predict(product, LineId{line}, shares,
                                                      day_from_iso("2026-04-01"));
                    };
                    const auto x = of(one), y = of(other);
                    CHECK(x.batches == y.batches);
                    largest = std::max({largest, std::abs((x.offset - y.offset).value()),
                                        std::abs((x.deviation - y.deviation).value()),
                                        std::abs(x.offset_sd - y.offset_sd),
                                        std::abs(x.deviation_sd - y.deviation_sd), std::abs(x.sd - y.sd)});
                }
    return largest;
}

std::vector<LotId> live_lots(const Book& book) {
    std::vector<LotId> live{LotId{1'000'000}}; // one that nobody has seen
    for (const auto& lot : book.lots)
        if (lot.state == LotState::released)
            live.push_back(lot.id);
    return live;
}

/// Weeks of work as the dice fall: four lots in use, blends of two, words said some doughs later, a batch now
/// and then taken back while it is open.
struct Weeks : Bakery {
    explicit Weeks(unsigned seed) : dice(seed) {}

    void one_more() {
        while (in_use.size() < 4)
            in_use.push_back(take_in());
        std::shuffle(in_use.begin(), in_use.end(), dice);
        const std::vector<LotId> of(in_use.begin(), in_use.begin() + 1 + up_to(2) % 2);
        mix(ProductId{up_to(2)}, of, 2 + up_to(20) * 0.1, up_to(2));
        auto& earlier =
            book.batches[book.batches.size() - std::min<std::size_t>(up_to(4), book.batches.size())];
        earlier.result.feel = up_to(3) == 1 ? Feel::stiff : Feel::right;
        earlier.is_countered = earlier.is_countered || up_to(15) == 1;
        if (up_to(4) == 1) {
            becomes(in_use.back(), LotState::used_up);
            in_use.pop_back();
        }
        at += std::chrono::minutes(30);
    }
    int up_to(int most) { return std::uniform_int_distribution(1, most)(dice); }

    std::mt19937 dice;
    std::vector<LotId> in_use;
};

} // namespace

TEST_CASE("Lots that were used up leave what doughs taught, and nothing of the rest changes by it") {
    for (unsigned seed = 1; seed <= 5; ++seed) {
        Weeks plant(seed);
        Doughs doughs;
        for (int batch = 1; batch <= 400; ++batch) {
            plant.one_more();
            doughs.follow(plant.book);
            if (batch % 67 != 0)
                continue;
            INFO("seed " << seed << ", batch " << batch);
            const auto live = live_lots(plant.book);
            CHECK(difference(doughs, of_everything(plant.book), live) < 1e-9);
            CHECK(difference(doughs, started(plant.book), live) < 1e-9);
        }
        CHECK(plant.book.lots.size() > 80);
        CHECK(doughs.water().lots().size() < 40);
    }
}

TEST_CASE("Over thousands of lots what is carried along is what is live, started anew or grown day by day") {
    Weeks plant(9);
    Doughs doughs;
    std::size_t largest = 0;
    while (plant.book.lots.size() < 2000) {
        for (int i = 0; i < 200; ++i)
            plant.one_more();
        doughs.follow(plant.book);
        largest = std::max(largest, doughs.water().unknowns());
    }
    // Four lots in use; in the last 48 doughs, one in four of which used a lot up, a dozen or two more; two
    // products on two lines.
    CHECK(largest < 50);
    CHECK(started(plant.book).water().unknowns() < 50);
}

TEST_CASE("A batch that is taken back long after its lot was used up teaches nothing") {
    Bakery plant;
    plant.mix_of_a_lot(pan, 5);
    const auto odd = plant.mix_of_a_lot(pan, 2, 3);
    for (int i = 0; i < 30; ++i)
        plant.mix_of_a_lot(pan, 4);
    auto doughs = started(plant.book);
    REQUIRE(doughs.water().was_let_go(odd));
    const double before = deviation(doughs, odd);

    plant.book.batches[6].is_countered = true;
    plant.becomes(odd, LotState::released); // its flour went back
    doughs.follow(plant.book);
    const auto lots = live_lots(plant.book);
    CHECK(difference(doughs, started(plant.book), lots) == 0);
    CHECK(difference(doughs, of_everything(plant.book), lots) < 1e-9);
    CHECK(deviation(doughs, odd) < before - 0.05);
}

TEST_CASE(
    "A lot of which more is found is believed of as if it had never gone, before its next dough and after") {
    for (const auto gone : {LotState::used_up, LotState::rejected}) {
        Bakery plant;
        const auto found = plant.mix_of_a_lot(pan, 4, 3.5);
        plant.becomes(found, gone);
        for (int i = 0; i < 20; ++i)
            plant.mix_of_a_lot(pan, 4);
        Doughs doughs = started(plant.book);
        REQUIRE(doughs.water().was_let_go(found));

        plant.becomes(found, gone == LotState::rejected ? LotState::held : LotState::released);
        doughs.follow(plant.book);
        CHECK_FALSE(doughs.water().was_let_go(found));
        CHECK(difference(doughs, of_everything(plant.book), {found}) < 1e-9);

        plant.mix(pan, {found}, 3).result.feel = Feel::stiff;
        doughs.follow(plant.book);
        CHECK(difference(doughs, of_everything(plant.book), {found}) < 1e-9);
    }
}

TEST_CASE("Flour that was found and used up again at another station counts with all its doughs") {
    Bakery plant;
    const auto lot = plant.mix_of_a_lot(pan, 4, 3.5);
    for (int i = 0; i < 20; ++i)
        plant.mix_of_a_lot(pan, 4);
    Doughs doughs = started(plant.book);
    REQUIRE(doughs.water().was_let_go(lot));
    // Between two looks at the book it was in stock and is used up once more.
    plant.mix(pan, {lot}, 3).result.feel = Feel::stiff;
    doughs.follow(plant.book);
    CHECK(difference(doughs, of_everything(plant.book), {lot}) < 1e-9);
    for (int i = 0; i < 20; ++i) {
        plant.mix_of_a_lot(pan, 4);
        doughs.follow(plant.book);
    }
    CHECK(doughs.water().was_let_go(lot));
    CHECK(difference(doughs, of_everything(plant.book), live_lots(plant.book)) < 1e-9);
}

TEST_CASE("How far a product's newest dough lay from its optimum is told as well as ever, its lots used up "
          "long ago") {
    Bakery plant;
    const auto once = plant.mix_of_a_lot(bun, 6, 4);
    for (int i = 0; i < 40; ++i)
        plant.mix_of_a_lot(pan, 4);
    Doughs doughs = started(plant.book);
    CHECK(difference(doughs, of_everything(plant.book), {once}) < 1e-9);
    // Not asked for any more once the product was mixed of another lot.
    plant.mix_of_a_lot(bun, 1);
    for (int i = 0; i < 20; ++i)
        plant.mix_of_a_lot(pan, 4);
    doughs.follow(plant.book);
    CHECK(doughs.water().was_let_go(once));
}

TEST_CASE(
    "A rest that lies half a year is not carried along, and counts in full when it is mixed after all") {
    Bakery plant;
    const auto rest = plant.mix_of_a_lot(pan, 4, 3.5);
    plant.becomes(rest, LotState::released);
    Doughs doughs;
    for (int i = 0; i < 30; ++i) {
        plant.at += Days{10};
        plant.mix_of_a_lot(pan, 4);
        doughs.follow(plant.book);
        if (i == 15)
            CHECK_FALSE(doughs.water().was_let_go(rest));
    }
    CHECK(doughs.water().was_let_go(rest));
    CHECK(deviation(doughs, rest) > 0.3);
    plant.mix(pan, {rest}, 3.5).result.feel = Feel::right;
    doughs.follow(plant.book);
    auto with_it = plant.book;
    for (auto& batch : with_it.batches)
        batch.at = plant.at; // as if nothing had lain long
    CHECK(difference(doughs, of_everything(with_it), {rest}) < 1e-9);
}

TEST_CASE(
    "The card of a lot of which a count found more is the one that the program started anew would show") {
    tests::SmallPlant plant;
    auto small = plant.draft("W24-118");
    small.mass_kg = "100";
    const auto used_up = plant.released_lot(small);
    auto large = plant.draft("W24-119");
    large.mass_kg = "10000";
    const auto stays = plant.released_lot(large);
    const auto run = [&](LotId lot, const char* batches) {
        const auto id = plant.add_run("Pan bread", "2026-11-25", batches);
        plant.app().handle(GiveLot{lot, {}, id});
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
        return id;
    };
    const auto mix = [&](RunId id, const char* feel) {
        plant.app().handle(ConfirmBatch{id, {}, 0});
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
        plant.app().handle(LogResult{plant.app().card_of(id).logged.front().id, {"", "", feel, "", "", ""}});
    };
    mix(run(used_up, "1"), "stiff");
    REQUIRE(plant.row("W24-118").state == LotState::used_up);
    const auto others = run(stays, "60");
    for (int i = 0; i < 60; ++i)
        mix(others, "right");
    plant.open_again();

    plant.app().handle(CountLot{used_up, PlaceId{1}, "100"});
    REQUIRE(plant.was_done());
    const auto again = run(used_up, "1");
    const auto card = plant.app().card_of(again);
    plant.open_again();
    CHECK(plant.app().card_of(again).water.note == card.water.note);
    CHECK(plant.app().card_of(again).water.value == card.water.value);
}
