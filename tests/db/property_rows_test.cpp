#include "book_support.h"
#include "db/property_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

namespace mellowbin {
namespace {

/// Every property of the book: key, low, high and whether it has a basis.
using Listed = std::vector<std::tuple<std::string, double, double, bool>>;

Listed listed(Connection& book) {
    Listed found;
    book.query("SELECT property_key, low, high, has_basis FROM property ORDER BY property_key", {},
               [&](const Row& row) {
                   found.emplace_back(row.words(0), row.real(1), row.real(2), row.integer(3) != 0);
               });
    return found;
}

Listed of_the_program() {
    Listed expected;
    for (const auto& t : all_properties())
        expected.emplace_back(t.key, t.lowest, t.highest, t.has_basis);
    std::sort(expected.begin(), expected.end());
    return expected;
}

std::int64_t rows_written(Connection& book) {
    std::int64_t rows = -1;
    book.query("SELECT total_changes()", {}, [&](const Row& row) { rows = row.integer(0); });
    return rows;
}

/// A book with a lot and a retest of it that have no results yet.
struct BareLot {
    explicit BareLot(Connection& book) {
        const auto plant = add_small_plant(book);
        Lot lot = good_lot(plant, "W1");
        lot.certificate = {};
        Change change(book, line("Lot W1 was taken in"));
        REQUIRE(LotStore(book).add(change, lot));
        change.connection().execute("INSERT INTO retest VALUES (1, 1, '2026-11-25', NULL, "
                                    "'2026-11-25T12:00:00Z', 'Ada Example', '', NULL)");
        change.commit();
    }
};

/// Whether a table of results takes this by plain SQL, past core and the stores; what was taken is not kept.
bool takes(Connection& book, std::string_view table, std::string_view property, double value,
           std::string_view basis) {
    const Transaction undone(book);
    try {
        book.execute(fmt::format("INSERT INTO {} VALUES (1, $1, $2, $3, '', 5.7)", table),
                     {property, value, basis});
        return true;
    } catch (const BookError& error) {
        CHECK(error.fault() == BookFault::rule_broken);
        return false;
    }
}

std::vector<PropertyTraits> with_one_more() {
    std::vector<PropertyTraits> properties(all_properties().begin(), all_properties().end());
    auto viscosity = traits(Property::stability);
    viscosity.key = "viscosity";
    viscosity.lowest = 10;
    viscosity.highest = 2000;
    properties.push_back(viscosity);
    return properties;
}

} // namespace

TEST_CASE("A book knows the program's properties with their ranges and bases, new or opened again") {
    const TemporaryFolder folder;
    SqliteConnection in_memory(":memory:");
    CHECK(listed(in_memory) == of_the_program());
    { SqliteConnection book(folder / "book"); }
    SqliteConnection book(folder / "book");
    CHECK(listed(book) == of_the_program());
}

TEST_CASE("Opening a book whose properties are right writes nothing") {
    const TemporaryFolder folder;
    { SqliteConnection book(folder / "book"); }
    SqliteConnection book(folder / "book");
    CHECK(rows_written(book) == 0);
}

TEST_CASE("A book whose list of properties fell behind is brought up to date when it is opened") {
    const TemporaryFolder folder;
    {
        SqliteConnection book(folder / "book");
        book.execute("DELETE FROM property WHERE property_key = 'stability'");
        book.execute("UPDATE property SET high = 12 WHERE property_key = 'protein'");
        book.execute("UPDATE property SET low = 2 WHERE property_key = 'ash'");
        book.execute("UPDATE property SET has_basis = 1 WHERE property_key = 'moisture'");
    }
    SqliteConnection book(folder / "book");
    CHECK(listed(book) == of_the_program());
}

TEST_CASE("A property that the program learns is taken by a book of the present form without a migration") {
    SqliteConnection book(":memory:");
    const BareLot lot(book);
    const std::string table = GENERATE("lot_value", "retest_value");
    CHECK_FALSE(takes(book, table, "viscosity", 800, ""));

    bring_properties_up_to_date(book, with_one_more());
    CHECK(takes(book, table, "viscosity", 10, ""));
    CHECK(takes(book, table, "viscosity", 2000, ""));
    CHECK_FALSE(takes(book, table, "viscosity", 9.9, ""));
    CHECK_FALSE(takes(book, table, "viscosity", 2000.1, ""));
    CHECK_FALSE(takes(book, table, "viscosity", 800, "as is"));
}

TEST_CASE("A range that the program widens or narrows holds for what is written from then on") {
    SqliteConnection book(":memory:");
    const BareLot lot(book);
    book.execute("INSERT INTO lot_value VALUES (1, 'protein', 39, 'as is', '', 5.7)");
    std::vector<PropertyTraits> properties(all_properties().begin(), all_properties().end());
    properties[static_cast<std::size_t>(Property::protein)].highest = 25;
    properties[static_cast<std::size_t>(Property::ash)].highest = 8;
    bring_properties_up_to_date(book, properties);
    CHECK_FALSE(takes(book, "retest_value", "protein", 39, "as is"));
    CHECK(takes(book, "retest_value", "ash", 8, "dry matter"));
    CHECK(LotStore(book).all().at(0).certificate.find(Property::protein)->value == 39);
}

TEST_CASE(
    "A book that a newer version gave a property this one does not know is refused, and left as it is") {
    const TemporaryFolder folder;
    {
        SqliteConnection book(folder / "book");
        bring_properties_up_to_date(book, with_one_more());
        book.execute("UPDATE property SET high = 50 WHERE property_key = 'protein'");
    }
    const auto before = bytes_of(folder / "book");
    const auto fault = fault_of([&] { SqliteConnection book(folder / "book"); });
    CHECK(fault.fault() == BookFault::newer_book);
    CHECK_THAT(fault.what(), Catch::Contains("newer version") && Catch::Contains("viscosity"));
    CHECK(bytes_of(folder / "book") == before);
}

TEST_CASE("By SQL, too, no result outside its range is written, nor one of a property that nobody knows") {
    SqliteConnection book(":memory:");
    const BareLot lot(book);
    const std::string table = GENERATE("lot_value", "retest_value");
    const bool zero_counts = table == "lot_value"; // a retest that found nothing is left out
    for (const auto& t : all_properties()) {
        INFO(table << " " << t.key);
        const std::string_view basis = t.has_basis ? "dry matter" : "";
        CHECK(takes(book, table, t.key, t.lowest, basis) == (zero_counts || t.lowest > 0));
        CHECK(takes(book, table, t.key, t.highest, basis));
        CHECK_FALSE(takes(book, table, t.key, t.lowest - 0.001, basis));
        CHECK_FALSE(takes(book, table, t.key, t.highest + 0.001, basis));
        CHECK_FALSE(takes(book, table, t.key, NAN, basis));
    }
    CHECK_FALSE(takes(book, table, "loveliness", 4, ""));
    CHECK_FALSE(takes(book, table, "", 4, ""));
}

TEST_CASE(
    "By SQL, too, a result has a basis where its property needs one, and none where it has no meaning") {
    SqliteConnection book(":memory:");
    const BareLot lot(book);
    const std::string table = GENERATE("lot_value", "retest_value");
    for (const auto& t : all_properties()) {
        INFO(table << " " << t.key);
        CHECK(takes(book, table, t.key, t.highest, "") != t.has_basis);
        CHECK(takes(book, table, t.key, t.highest, "as is") == t.has_basis);
        CHECK(takes(book, table, t.key, t.highest, "14 % moisture") == t.has_basis);
    }
}

TEST_CASE("A result of a certificate cannot be edited into one that no flour has") {
    SqliteConnection book(":memory:");
    take_in(book, add_small_plant(book), "W1");
    const auto before = LotStore(book).all();
    for (const char* sql : {
             "UPDATE lot_value SET value = 41 WHERE property = 'protein'",
             "UPDATE lot_value SET basis = '' WHERE property = 'protein'",
             "UPDATE lot_value SET basis = 'as is' WHERE property = 'falling_number'",
             "UPDATE lot_value SET property = 'loveliness' WHERE property = 'falling_number'",
             "REPLACE INTO lot_value VALUES (1, 'protein', 0.5, 'as is', '', 5.7)",
         }) {
        INFO(sql);
        CHECK(fault_of([&] { book.execute(sql); }).fault() == BookFault::rule_broken);
    }
    CHECK(LotStore(book).all() == before);
}

} // namespace mellowbin
