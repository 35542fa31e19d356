#include "book_support.h"
#include "db/limit_store.h"

namespace mellowbin {
namespace {

// The figures are invented: the store keeps what it is given.
const std::vector<Market> markets{{"US-CA", "California", "US-federal"}, {"US-federal", "United States", ""}};

LimitRow full_row() {
    LimitRow row;
    row.market = "US-federal";
    row.substance = Substance::potassium_bromate;
    row.food = FoodClass::white_flour;
    row.status = LimitStatus::permitted;
    row.limit = OxidantPpm{50};
    row.sum_group = "bromates";
    row.valid_from = date::sys_days{1952_y / 5 / 15};
    row.valid_to = date::sys_days{2027_y / 12 / 31};
    row.rule = "in the flour standard";
    row.source = "21 CFR 137.155";
    row.source_date = "2014-04-01";
    return row;
}

int seeded(Connection& book, const std::vector<LimitRow>& rows) {
    Change change(book, line("The limits as shipped were added"));
    const auto done = LimitStore(book).seed(change, markets, rows);
    change.commit();
    return static_cast<int>(done.added.size());
}

} // namespace

TEST_CASE("Markets and limits come back as they were seeded, unconfirmed ones unconfirmed") {
    SqliteConnection book(":memory:");
    LimitRow open = full_row();
    open.substance = Substance::ascorbic_acid;
    open.status = LimitStatus::permitted_gmp;
    open.limit.reset();
    open.valid_from.reset();
    open.valid_to.reset();
    CHECK(seeded(book, {full_row(), open}) == 2);

    auto first = full_row();
    first.id = 1;
    open.id = 2;
    const auto rows = LimitStore(book).rows();
    REQUIRE(rows.size() == 2);
    CHECK(rows[0] == first);
    CHECK(rows[1] == open);
    CHECK_FALSE(rows[0].is_confirmed);
    const auto found = LimitStore(book).markets();
    REQUIRE(found.size() == 2);
    CHECK(found[0].key == "US-CA");
    CHECK(found[0].lies_in == "US-federal");
    CHECK(found[1].lies_in.empty());
}

TEST_CASE("Seeding again adds what is new and never touches what the plant has") {
    SqliteConnection book(":memory:");
    seeded(book, {full_row()});
    LimitStore limits(book);
    {
        auto row = limits.rows()[0];
        row.limit = OxidantPpm{20};
        Change change(book, line("A limit was lowered"));
        REQUIRE(limits.save(change, row));
        change.commit();
    }
    auto later = full_row();
    later.valid_from = date::sys_days{2027_y / 1 / 1};
    CHECK(seeded(book, {full_row(), later}) == 1);
    REQUIRE(limits.rows().size() == 2);
    CHECK(limits.rows()[0].limit == OxidantPpm{20});
}

TEST_CASE("A row whose status the plant corrected is not added a second time as shipped") {
    SqliteConnection book(":memory:");
    seeded(book, {full_row()});
    LimitStore limits(book);
    auto row = limits.rows()[0];
    row.status = LimitStatus::not_permitted;
    row.limit.reset();
    row.is_confirmed = true;
    row.confirmed_by = "Ada Example";
    {
        Change change(book, line("A limit was changed"));
        REQUIRE(limits.save(change, row));
        change.commit();
    }
    CHECK(seeded(book, {full_row()}) == 0);
    REQUIRE(limits.rows().size() == 1);
    CHECK(limits.rows()[0] == row);
}

TEST_CASE("A limit that ends before it begins is refused") {
    SqliteConnection book(":memory:");
    auto row = full_row();
    row.valid_to = *row.valid_from - Days{1};
    Change change(book, line("A limit was entered"));
    const auto refused = LimitStore(book).save(change, row);
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals()[0].field == "Valid to");
}

} // namespace mellowbin
