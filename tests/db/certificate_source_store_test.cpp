#include "book_support.h"
#include "db/base64.h"
#include "db/certificate_source_store.h"
#include "db/journal_store.h"

namespace mellowbin {
namespace {

/// Every byte there is, zero among them, as a file has them.
std::string every_byte() {
    std::string bytes;
    for (int i = 0; i < 256; ++i)
        bytes += static_cast<char>(i);
    return bytes;
}

CertificateSource a_file(std::string bytes) {
    CertificateSource source;
    source.name = "Lieferung 7.xlsx";
    source.bytes = std::move(bytes);
    return source;
}

CertificateSourceId kept(Connection& book, const CertificateSource& source) {
    Change change(book, line("A certificate was kept"));
    const auto id = CertificateSourceStore(book).keep(change, source);
    change.commit();
    return id;
}

} // namespace

// The vectors of RFC 4648, section 10.
TEST_CASE("Bytes are written in base64 as its standard's examples are, and read back") {
    const std::pair<const char*, const char*> vectors[] = {{"", ""},
                                                           {"f", "Zg=="},
                                                           {"fo", "Zm8="},
                                                           {"foo", "Zm9v"},
                                                           {"foob", "Zm9vYg=="},
                                                           {"fooba", "Zm9vYmE="},
                                                           {"foobar", "Zm9vYmFy"}};
    for (const auto& [bytes, text] : vectors) {
        CHECK(to_base64(bytes) == text);
        CHECK(from_base64(text) == std::string(bytes));
    }
    CHECK(from_base64(to_base64(every_byte())) == every_byte());
    for (const char* torn : {"Zg=", "Zg", "Z===", "Zm9*", "Zg==Zg=="}) {
        INFO(torn);
        CHECK_FALSE(from_base64(torn));
    }
}

TEST_CASE("A certificate comes back to the last byte, with its name, who kept it and when") {
    SqliteConnection book(":memory:");
    const auto id = kept(book, a_file(every_byte()));
    auto expected = a_file(every_byte());
    expected.id = id;
    expected.kept_at = line("").at;
    expected.kept_by = line("").who;
    CHECK(CertificateSourceStore(book).source(id) == expected);
    CHECK_FALSE(CertificateSourceStore(book).source(CertificateSourceId{99}));
}

TEST_CASE("The same bytes are kept once, whatever the name of their file") {
    SqliteConnection book(":memory:");
    const auto first = kept(book, a_file("Protein 11,8 %"));
    auto again = a_file("Protein 11,8 %");
    again.name = "copy of it.xlsx";
    CHECK(kept(book, again) == first);
    CHECK(CertificateSourceStore(book).find("Protein 11,8 %") == first);
    CHECK_FALSE(CertificateSourceStore(book).find("Protein 11,9 %"));
    CHECK(kept(book, a_file("Protein 11,9 %")) != first);
    CHECK(count_of(book, "certificate_source") == 2);
}

TEST_CASE(
    "A lot knows the certificate it came with and its place in it, and other stations learn of the lot") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto lot = take_in(book, plant, "W24-118");
    CertificateSourceStore sources(book);
    CHECK_FALSE(sources.of(lot));
    const auto id = kept(book, a_file(every_byte()));
    const auto before = JournalStore(book).version();
    {
        Change change(book, line("Lot W24-118 taken in"));
        REQUIRE(sources.tie(change, lot, id, "Lots!A5"));
        change.commit();
    }
    const auto source = sources.of(lot);
    REQUIRE(source);
    CHECK(source->id == id);
    CHECK(source->name == "Lieferung 7.xlsx");
    CHECK(source->place == "Lots!A5");
    CHECK(source->size == 256);
    CHECK_FALSE(source->is_pasted);
    CHECK(JournalStore(book).since(before).records == std::vector<RecordRef>{record_of(lot)});
}

TEST_CASE("A lot is tied to no certificate that the book does not have, and to no second one") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto lot = take_in(book, plant, "W24-118");
    {
        Change change(book, line("Lot W24-118 taken in"));
        const auto tied = CertificateSourceStore(book).tie(change, lot, CertificateSourceId{7}, "");
        REQUIRE_FALSE(tied);
        CHECK(tied.refusals().front().field == "Certificate");
    }
    const auto id = kept(book, a_file("a"));
    Change change(book, line("Lot W24-118 taken in"));
    REQUIRE(CertificateSourceStore(book).tie(change, lot, id, "line 2"));
    CHECK(fault_of([&, held = id, of = lot] {
              static_cast<void>(CertificateSourceStore(book).tie(change, of, held, "line 3"));
          }).fault() == BookFault::rule_broken);
}

TEST_CASE("A certificate that is not as it was kept is told as damage, not handed out") {
    SqliteConnection book(":memory:");
    const auto id = kept(book, a_file("Protein 11,8 %"));
    book.execute("DROP TRIGGER certificate_source_is_never_edited");
    book.execute("UPDATE certificate_source SET content = $1", {to_base64("Protein 12,8 %")});
    CHECK(fault_of([&, held = id] {
              static_cast<void>(CertificateSourceStore(book).source(held));
          }).fault() == BookFault::damaged);
}

TEST_CASE("A certificate in the book is neither edited nor deleted") {
    SqliteConnection book(":memory:");
    kept(book, a_file("Protein 11,8 %"));
    CHECK(fault_of([&] { book.execute("UPDATE certificate_source SET name = 'x'"); }).fault() ==
          BookFault::rule_broken);
    CHECK(fault_of([&] { book.execute("DELETE FROM certificate_source"); }).fault() ==
          BookFault::rule_broken);
}

} // namespace mellowbin
