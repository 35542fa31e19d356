#include "core/stock.h"
#include "support/refusal_words.h"

#include <random>

namespace mellowbin {
namespace {

using testing::says;

constexpr LotId lot{7};
constexpr PlaceId bay{1};
constexpr PlaceId silo{2};

Movement movement(MovementKind kind, std::optional<PlaceId> from, std::optional<PlaceId> to,
                  std::int64_t grams, LotId of = lot) {
    Movement m;
    m.lot = of;
    m.kind = kind;
    m.from = from;
    m.to = to;
    m.mass = Grams{grams};
    return m;
}
Movement receipt(std::int64_t grams, PlaceId to = bay) {
    return movement(MovementKind::receipt, {}, to, grams);
}
Movement use(std::int64_t grams, PlaceId from = bay) { return movement(MovementKind::use, from, {}, grams); }

std::string why_not(const StockBook& book, const Movement& m) {
    const auto checked = book.check(m);
    return checked ? "" : testing::all_words(checked.refusals());
}

} // namespace

TEST_CASE("Movements of one lot add up place by place and in all") {
    const Movement movements[] = {receipt(5'000'000), movement(MovementKind::move, bay, silo, 1'200'000),
                                  use(300'001, silo), movement(MovementKind::waste, bay, {}, 25'000),
                                  movement(MovementKind::give_back, {}, silo, 1)};
    const StockBook book(movements);
    CHECK(book.at(lot, bay) == Grams{3'775'000});
    CHECK(book.at(lot, silo) == Grams{900'000});
    CHECK(book.total(lot) == Grams{4'675'000});
    CHECK(book.places_of(lot).size() == 2);
    CHECK(book.total(LotId{8}) == Grams{0});
    CHECK(book.at(LotId{6}, bay) == Grams{0});
}

TEST_CASE("A place that is empty again is not among the places of the lot") {
    StockBook book;
    book.enter(receipt(25'000));
    book.enter(use(25'000));
    CHECK(book.places_of(lot).empty());
    CHECK(book.total(lot) == Grams{0});
}

TEST_CASE("No place goes below nothing, and the refusal shows grams that matter") {
    StockBook book;
    book.enter(receipt(1'000'000));
    CHECK(book.check(use(1'000'000)));
    CHECK(says(why_not(book, use(1'000'001)),
               "1000.001 kg was read, but only 1000.000 kg of the lot lies there"));
    CHECK(!book.check(use(1, silo)));
    CHECK(!book.check(movement(MovementKind::move, silo, bay, 1)));
    CHECK(!book.check(movement(MovementKind::use, bay, {}, 1, LotId{8})));
    CHECK(book.total(lot) == Grams{1'000'000}); // checking changes nothing
}

TEST_CASE("A movement of nothing or less is refused") {
    StockBook book;
    book.enter(receipt(1'000));
    CHECK(says(why_not(book, use(0)), "more than nothing"));
    CHECK(says(why_not(book, use(-5)), "-5 g was read"));
}

TEST_CASE("The places fit the kind of movement") {
    StockBook book;
    book.enter(receipt(1'000'000));
    const auto fits = [&](MovementKind kind, std::optional<PlaceId> from, std::optional<PlaceId> to) {
        return static_cast<bool>(book.check(movement(kind, from, to, 10)));
    };
    for (const auto kind : {MovementKind::receipt, MovementKind::give_back}) {
        CHECK(fits(kind, {}, bay));
        CHECK(!fits(kind, bay, {}));
        CHECK(!fits(kind, bay, silo));
        CHECK(!fits(kind, {}, {}));
    }
    for (const auto kind : {MovementKind::use, MovementKind::waste}) {
        CHECK(fits(kind, bay, {}));
        CHECK(!fits(kind, {}, bay)); // would make flour out of nothing
        CHECK(!fits(kind, bay, silo));
    }
    CHECK(fits(MovementKind::move, bay, silo));
    CHECK(!fits(MovementKind::move, bay, bay));
    CHECK(!fits(MovementKind::move, bay, {}));
    CHECK(fits(MovementKind::count, bay, {}));
    CHECK(fits(MovementKind::count, {}, bay));
    CHECK(!fits(MovementKind::count, bay, silo));
}

TEST_CASE("A mistake is countered by a second line that names the first and brings all back") {
    StockBook book;
    book.enter(receipt(1'000'000));
    for (auto mistaken : {use(250'000), movement(MovementKind::move, bay, silo, 250'000),
                          movement(MovementKind::waste, bay, {}, 250'000)}) {
        mistaken.id = MovementId{12};
        mistaken.run = RunId{3};
        book.enter(mistaken);
        const auto counter = countering(mistaken, "Ana", Instant{}, "wrong lot");
        CHECK(counter.counters == MovementId{12});
        CHECK(!counter.id.is_known());
        CHECK(counter.mass == mistaken.mass);
        CHECK(counter.run == mistaken.run);
        CHECK(counter.note == "wrong lot");
        CHECK(counter.who == "Ana");
        REQUIRE(book.check(counter));
        book.enter(counter);
        CHECK(book.at(lot, bay) == Grams{1'000'000});
        CHECK(book.at(lot, silo) == Grams{0});
    }
}

TEST_CASE("A receipt cannot be countered once part of it is gone") {
    StockBook book;
    auto received = receipt(1'000'000);
    received.id = MovementId{1};
    book.enter(received);
    CHECK(book.check(countering(received, "Ana", Instant{}, "wrong lot")));
    book.enter(use(1));
    CHECK(!book.check(countering(received, "Ana", Instant{}, "wrong lot")));
}

TEST_CASE("What comes back from a run lies there again") {
    StockBook book;
    book.enter(receipt(1'000'000));
    book.enter(use(400'000));
    const auto back = movement(MovementKind::give_back, {}, bay, 40'000);
    REQUIRE(book.check(back));
    book.enter(back);
    CHECK(book.total(lot) == Grams{640'000});
}

TEST_CASE("A count brings the book to what was counted") {
    for (const std::int64_t counted : {900'000, 1'100'000, 0}) {
        StockBook book;
        book.enter(receipt(1'000'000));
        const auto correction = correction_by_count(lot, bay, book.at(lot, bay), Grams{counted});
        REQUIRE(correction);
        CHECK(correction->kind == MovementKind::count);
        REQUIRE(book.check(*correction));
        book.enter(*correction);
        CHECK(book.at(lot, bay) == Grams{counted});
    }
    CHECK(!correction_by_count(lot, bay, Grams{5}, Grams{5}));
}

TEST_CASE("Whatever was allowed to happen, nothing is below nothing and all grams are accounted for") {
    std::mt19937 random{20261125};
    std::uniform_int_distribution<int> kinds{0, 5};
    std::uniform_int_distribution<int> places{1, 4};
    std::uniform_int_distribution<std::int64_t> masses{1, 300'000};
    std::uniform_int_distribution<int> lots{1, 3};
    StockBook book;
    std::vector<Movement> made;
    std::map<LotId, std::int64_t> brought;
    for (int i = 0; i < 5000; ++i) {
        const auto kind = static_cast<MovementKind>(kinds(random));
        const PlaceId one{places(random)};
        const bool brings = kind == MovementKind::receipt || kind == MovementKind::give_back ||
                            (kind == MovementKind::count && i % 2 == 0);
        const bool moves = kind == MovementKind::move;
        const auto from = brings ? std::nullopt : std::optional{one};
        const auto to = moves    ? std::optional{PlaceId{places(random)}}
                        : brings ? std::optional{one}
                                 : std::nullopt;
        const auto m = movement(kind, from, to, masses(random), LotId{lots(random)});
        if (!book.check(m))
            continue;
        book.enter(m);
        made.push_back(m);
        if (!moves)
            brought[m.lot] += brings ? m.mass.count() : -m.mass.count();
        for (int p = 1; p <= 4; ++p)
            REQUIRE(book.at(m.lot, PlaceId{p}) >= Grams{0});
    }
    REQUIRE(made.size() > 1000);
    for (const auto& [id, grams] : brought) {
        CHECK(book.total(id) == Grams{grams});
        Grams in_places;
        for (const auto& [place, mass] : book.places_of(id))
            in_places += mass;
        CHECK(in_places == Grams{grams});
        CHECK(StockBook(made).places_of(id) == book.places_of(id));
    }
}

TEST_CASE("Every kind of movement has a key of its own") {
    for (int i = 0; i < 6; ++i) {
        const auto kind = static_cast<MovementKind>(i);
        CHECK(movement_kind_from_key(key_of(kind)) == kind);
    }
    CHECK(!movement_kind_from_key("steal"));
}

namespace {

constexpr LotId other{8};

Movement into_silo(LotId of, std::int64_t grams) {
    return movement(MovementKind::receipt, {}, silo, grams, of);
}

} // namespace

TEST_CASE("A silo's layers lie in the order in which they came, and a lot leaves from its oldest") {
    StockBook book;
    CHECK(book.layers(silo).empty());
    book.enter(into_silo(lot, 1'000));
    book.enter(into_silo(other, 500));
    book.enter(into_silo(other, 100)); // the same lot on top of itself: one layer
    book.enter(into_silo(lot, 300));
    CHECK(book.layers(silo) ==
          std::vector<Layer>{{lot, Grams{1'000}}, {other, Grams{600}}, {lot, Grams{300}}});
    book.enter(use(1'100, silo));
    CHECK(book.layers(silo) == std::vector<Layer>{{other, Grams{600}}, {lot, Grams{200}}});
    book.enter(movement(MovementKind::move, silo, bay, 600, other));
    CHECK(book.layers(silo) == std::vector<Layer>{{lot, Grams{200}}});
    CHECK(book.layers(bay) == std::vector<Layer>{{other, Grams{600}}});
}

TEST_CASE(
    "What is countered lies in its layer again, and what a count found belongs to the lot's own layer") {
    StockBook book;
    book.enter(into_silo(lot, 1'000));
    book.enter(into_silo(other, 500));
    const auto countered = [](Movement mistaken) {
        mistaken.id = MovementId{12};
        return countering(mistaken, "Ana", Instant{}, "");
    };
    book.enter(use(1'000, silo));
    CHECK(book.layers(silo) == std::vector<Layer>{{other, Grams{500}}});
    book.enter(countered(use(1'000, silo)));
    const std::vector<Layer> both{{lot, Grams{1'000}}, {other, Grams{500}}};
    CHECK(book.layers(silo) == both); // below again
    book.enter(into_silo(lot, 200));
    book.enter(countered(into_silo(lot, 200)));
    CHECK(book.layers(silo) == both); // the one on top is gone
    book.enter(movement(MovementKind::count, {}, silo, 50));
    CHECK(book.layers(silo) == std::vector<Layer>{{lot, Grams{1'050}}, {other, Grams{500}}});
    book.enter(movement(MovementKind::count, silo, {}, 150));
    CHECK(book.layers(silo) == std::vector<Layer>{{lot, Grams{900}}, {other, Grams{500}}});
}

TEST_CASE("The layers of a place add up to what lies there, whatever happens") {
    StockBook book;
    std::mt19937 random(7);
    for (int i = 0; i < 400; ++i) {
        const LotId of = random() % 2 == 0 ? lot : other;
        const auto grams = static_cast<std::int64_t>(random() % 900 + 1);
        const auto kind = random() % 3;
        auto m = kind == 0   ? movement(MovementKind::receipt, {}, random() % 2 == 0 ? bay : silo, grams, of)
                 : kind == 1 ? movement(MovementKind::move, bay, silo, grams, of)
                             : movement(MovementKind::use, silo, {}, grams, of);
        if (!book.check(m))
            continue;
        book.enter(m);
        for (const PlaceId place : {bay, silo})
            for (const LotId one : {lot, other}) {
                Grams sum;
                for (const auto& layer : book.layers(place))
                    if (layer.lot == one)
                        sum += layer.mass;
                REQUIRE(sum == book.at(one, place));
            }
    }
}

TEST_CASE("A lot is drawn from the places said, in their order, then from the one that holds least") {
    const std::map<PlaceId, Grams> lying{
        {PlaceId{1}, Grams{500}}, {PlaceId{2}, Grams{40}}, {PlaceId{3}, Grams{300}}};
    const auto drawn = [&](std::vector<PlaceId> said, std::int64_t grams) {
        return drawn_from(lying, said, Grams{grams});
    };
    using Drawn = std::vector<PlacedFlour>;
    CHECK(drawn({}, 30) == Drawn{{PlaceId{2}, Grams{30}}}); // not the fullest
    CHECK(drawn({}, 100) == Drawn{{PlaceId{2}, Grams{40}}, {PlaceId{3}, Grams{60}}});
    CHECK(drawn({PlaceId{1}}, 100) == Drawn{{PlaceId{1}, Grams{100}}});
    CHECK(drawn({PlaceId{3}, PlaceId{1}}, 400) == Drawn{{PlaceId{3}, Grams{300}}, {PlaceId{1}, Grams{100}}});
    CHECK(drawn({PlaceId{9}, PlaceId{3}}, 10) == Drawn{{PlaceId{3}, Grams{10}}}); // none of it lies there
    CHECK(drawn({PlaceId{3}, PlaceId{3}}, 310) == Drawn{{PlaceId{3}, Grams{300}}, {PlaceId{2}, Grams{10}}});
    CHECK(drawn({}, 900) ==
          Drawn{{PlaceId{2}, Grams{40}}, {PlaceId{3}, Grams{300}}, {PlaceId{1}, Grams{500}}});
    CHECK(drawn({}, 0).empty());
}

TEST_CASE("Two lots that take turns in a place make no more layers of it than turns that are left") {
    StockBook book;
    const LotId other{8};
    for (int turn = 0; turn < 1'000; ++turn) {
        book.enter(movement(MovementKind::receipt, {}, silo, 10));
        book.enter(movement(MovementKind::receipt, {}, silo, 10, other));
        book.enter(use(10, silo)); // all of the one, in time, and none of the other
    }
    CHECK(book.at(lot, silo) == Grams{0});
    CHECK(book.layers(silo) == std::vector<Layer>{{other, Grams{10'000}}});
}

} // namespace mellowbin
