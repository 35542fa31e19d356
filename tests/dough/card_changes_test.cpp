#include "card_fixture.h"
#include "dough/card_changes.h"

using namespace mellowbin;
using namespace mellowbin::dough;

TEST_CASE("Where a batch takes one lot alone, the batch from which another lot goes in is known ahead") {
    CardCase run;
    run.input.product.one_lot_a_batch = true;
    run.input.run.batches = 5;
    run.input.run.flour = Grams{500'000};
    run.add("FIRST", 300'000, 0.9);
    run.add("SECOND", 200'000, 0.9)
        .certificate.set({Property::absorption, 65.0, Basis::at(Moisture{14}), "", wheat_nitrogen_factor});
    const auto now = run.card();
    CHECK(now.flour.front().code == "FIRST");
    const auto ahead = change_ahead(run.input, now, 5);
    REQUIRE(ahead);
    CHECK(ahead->batches_on == 3);
    CHECK(ahead->card.flour.front().code == "SECOND");
    REQUIRE(ahead->card.water);
    CHECK(ahead->card.water->dough.exact.value() ==
          Approx(now.water->dough.exact.value() + 3)); // 3 points on 100 kg
}

TEST_CASE("A blend in proportion stays the same to the last batch") {
    CardCase run;
    run.input.run.batches = 4;
    run.add("A", 300'000, 0.9);
    run.add("B", 100'000, 0.9);
    CHECK_FALSE(change_ahead(run.input, run.card(), 4));
}

TEST_CASE("A lot that runs out of a blend is told") {
    CardCase run;
    run.input.product.one_lot_a_batch = true;
    run.input.run.batches = 2;
    run.add("A", 200'000, 0.9);
    run.add("B", 200'000, 0.9);
    const auto ahead = change_ahead(run.input, run.card(), 2);
    REQUIRE(ahead);
    CHECK(ahead->batches_on == 1);
    CHECK_FALSE(change_ahead(run.input, run.card(), 1)); // no batch is left after this one
}
