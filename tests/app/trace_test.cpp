#include "app/models/trace.h"
#include "core/flour_course.h"
#include "db/movement_store.h"
#include "db/silo_store.h"
#include "support/catch.h"
#include "support/explained_book.h"
#include "support/iso.h"
#include "traced_book.h"

#include <fmt/format.h>

#include <set>

using namespace mellowbin;
using namespace mellowbin::app;
using tests::TracedBook;

namespace {

/// How much of each lot is in each batch, by walking over all rows of the book, from its first movement on,
/// with no look at what the trace asks for or leaves out.
struct Walked {
    struct Share {
        double likely = 0;
        std::int64_t booked = 0;
        bool is_sure = false;
    };
    std::map<std::int64_t, std::map<std::int64_t, Share>> batches; ///< by batch and lot; those that stand
    std::map<std::int64_t, std::int64_t> run_of;
    std::map<std::int64_t, double> dough, flour;
    FlourCourse course;
    StockBook stock;

    explicit Walked(Connection& book) : course(SiloStore(book).zones()) {
        for (const auto& movement : MovementStore(book).all()) {
            course.enter(movement);
            stock.enter(movement);
        }
        book.query("SELECT id, run_id FROM batch WHERE counters_id IS NULL AND id NOT IN "
                   "(SELECT counters_id FROM batch WHERE counters_id IS NOT NULL)",
                   {}, [&](const Row& row) { run_of[row.integer(0)] = row.integer(1); });
        add_flour(book);
        add_rework(book);
    }
    void add_flour(Connection& book) {
        book.query("SELECT batch_id, lot_id, mass_g FROM batch_flour", {}, [&](const Row& row) {
            const auto batch = row.integer(0);
            if (!run_of.contains(batch))
                return;
            batches[batch][row.integer(1)].booked += row.integer(2);
            flour[batch] += static_cast<double>(row.integer(2));
            dough[batch] += static_cast<double>(row.integer(2));
        });
        book.query("SELECT id, water_kg + ice_kg FROM batch", {},
                   [&](const Row& row) { dough[row.integer(0)] += 1000 * row.real(1); });
        book.query("SELECT batch_id, movement_id FROM batch_use", {}, [&](const Row& row) {
            if (!run_of.contains(row.integer(0)))
                return;
            for (const auto& part : course.moved_by(MovementId{row.integer(1)})) {
                auto& share = batches[row.integer(0)][part.lot.number()];
                share.likely += static_cast<double>(part.mass.count());
                share.is_sure = share.is_sure || part.certainty == Certainty::contains;
            }
        });
    }
    void add_rework(Connection& book) {
        struct Put {
            std::int64_t from, into;
            bool is_flour;
            double grams;
        };
        std::vector<Put> all;
        book.query(
            "SELECT from_batch_id, into_batch_id, kind, mass_g FROM rework WHERE counters_id IS NULL "
            "AND id NOT IN (SELECT counters_id FROM rework WHERE counters_id IS NOT NULL) "
            "ORDER BY into_batch_id",
            {}, [&](const Row& row) {
                if (run_of.contains(row.integer(0)) && run_of.contains(row.integer(1)))
                    all.push_back({row.integer(0), row.integer(1), row.text(2) == "flour", row.real(3)});
            });
        for (const auto& put : all)
            dough[put.into] += put.grams;
        for (const auto& put : all) { // the sources of a batch come before it
            const double whole = put.is_flour ? flour[put.from] : dough[put.from];
            for (const auto& [lot, share] : batches[put.from])
                batches[put.into][lot].likely += share.likely * put.grams / whole;
        }
    }
};

const TraceShare* share_in(const TraceBatch& batch, std::int64_t lot) {
    for (const auto& share : batch.shares)
        if (share.lot.number() == lot)
            return &share;
    return nullptr;
}

void check_share(const TraceShare& share, const Walked::Share& expected) {
    CHECK(share.booked.count() == expected.booked);
    CHECK(share.likely_g == Approx(expected.likely).margin(1)); // the dough is kept in whole grams
    CHECK((share.certainty == Certainty::contains) == expected.is_sure);
}

/// Dispatches of a run that stand, by walking over all rows.
std::set<std::int64_t> sent_of(Connection& book, const std::set<std::int64_t>& runs) {
    std::set<std::int64_t> ids;
    book.query("SELECT id, run_id FROM dispatch WHERE counters_id IS NULL AND id NOT IN "
               "(SELECT counters_id FROM dispatch WHERE counters_id IS NOT NULL)",
               {}, [&](const Row& row) {
                   if (runs.contains(row.integer(1)))
                       ids.insert(row.integer(0));
               });
    return ids;
}

std::set<std::int64_t> ids_of(const std::vector<TraceDispatch>& dispatches) {
    std::set<std::int64_t> ids;
    for (const auto& one : dispatches)
        ids.insert(one.dispatch.id.number());
    return ids;
}

TraceQuery of_lot(LotId lot) {
    TraceQuery query;
    query.asks = TraceOf::lot;
    query.lot = lot;
    return query;
}

} // namespace

TEST_CASE("A lot traced forward is in the batches and dispatches that a walk over all rows finds, and in no "
          "others") {
    int by_silo = 0, by_rework = 0, sure = 0;
    for (unsigned seed = 1; seed <= 25; ++seed) {
        TracedBook at(seed);
        const Walked walked(at.book());
        for (const auto lot : at.lots()) {
            INFO("seed " << seed << ", lot " << lot.number());
            const auto trace = find_trace(at.book(), of_lot(lot));
            std::map<std::int64_t, const TraceBatch*> found;
            std::set<std::int64_t> runs;
            for (const auto& batch : trace.batches) {
                found[batch.batch.id.number()] = &batch;
                runs.insert(batch.batch.run.number());
            }
            for (const auto& [batch, shares] : walked.batches) {
                const auto expected = shares.find(lot.number());
                INFO("batch " << batch);
                REQUIRE(found.contains(batch) == (expected != shares.end()));
                if (expected == shares.end())
                    continue;
                const auto& share = found[batch]->shares.at(0);
                check_share(share, expected->second);
                by_silo += share.by_silo ? 1 : 0;
                by_rework += share.by_rework ? 1 : 0;
                sure += share.certainty == Certainty::contains ? 1 : 0;
            }
            CHECK(ids_of(trace.dispatches) == sent_of(at.book(), runs));
            for (const auto& one : trace.dispatches) {
                bool all_sure = true;
                for (const auto& [batch, run] : walked.run_of) {
                    if (run != one.dispatch.run.number() || !walked.batches.contains(batch))
                        continue;
                    const auto& shares = walked.batches.at(batch);
                    const auto at_batch = shares.find(lot.number());
                    all_sure = all_sure && at_batch != shares.end() && at_batch->second.is_sure;
                }
                CHECK((one.certainty == Certainty::contains) == all_sure);
            }
        }
    }
    CHECK(by_silo > 200); // the books do hold what they are made for
    CHECK(by_rework > 80);
    CHECK(sure > 200);
}

TEST_CASE("A run traced back is of the lots that a walk over all rows finds, with rework of rework") {
    int reworked = 0;
    for (unsigned seed = 101; seed <= 120; ++seed) {
        TracedBook at(seed);
        const Walked walked(at.book());
        for (const auto run : at.runs()) {
            INFO("seed " << seed << ", run " << run.number());
            TraceQuery query;
            query.asks = TraceOf::run;
            query.run = run;
            const auto trace = find_trace(at.book(), query);
            std::map<std::int64_t, Walked::Share> expected;
            for (const auto& [batch, of_run] : walked.run_of)
                if (of_run == run.number() && walked.batches.contains(batch))
                    for (const auto& [lot, share] : walked.batches.at(batch)) {
                        expected[lot].booked += share.booked;
                        expected[lot].likely += share.likely;
                        expected[lot].is_sure = expected[lot].is_sure || share.is_sure;
                    }
            REQUIRE(trace.lots.size() == expected.size());
            for (const auto& lot : trace.lots) {
                const auto& share = expected.at(lot.lot.id.number());
                CHECK(lot.share.booked.count() == share.booked);
                CHECK(lot.share.likely_g == Approx(share.likely).margin(2));
                CHECK((lot.share.certainty == Certainty::contains) == share.is_sure);
                CHECK(lot.lot.mill == "Mill");
                CHECK(lot.lot.delivery_note == "N" + std::to_string(lot.lot.id.number()));
            }
            for (const auto& batch : trace.batches) {
                const auto& shares = walked.batches.at(batch.batch.id.number());
                REQUIRE(batch.shares.size() == shares.size());
                for (const auto& [lot, share] : shares)
                    check_share(*share_in(batch, lot), share);
                reworked += batch.batch.run != run ? 1 : 0;
            }
            if (!trace.batches.empty())
                CHECK(ids_of(trace.dispatches) == sent_of(at.book(), {run.number()}));
        }
    }
    CHECK(reworked > 20);
}

TEST_CASE("Back and forward agree: a lot is in a product's trace of a day where a batch of that day is in "
          "its own") {
    for (unsigned seed = 201; seed <= 208; ++seed) {
        TracedBook at(seed);
        for (const char* day : {"2026-11-20", "2026-11-21", "2026-11-22", "2026-11-23"}) {
            TraceQuery query;
            query.asks = TraceOf::product;
            query.product = ProductId{1};
            query.day = day_from_iso(day);
            std::set<std::int64_t> back, forward;
            for (const auto& lot : find_trace(at.book(), query).lots)
                back.insert(lot.lot.id.number());
            for (const auto lot : at.lots())
                for (const auto& batch : find_trace(at.book(), of_lot(lot)).batches)
                    if (batch.batch.day == query.day)
                        forward.insert(lot.number());
            CHECK(back == forward);
        }
    }
}

TEST_CASE(
    "The mass balance of a lot is the sum of its movements, and only flour in no batch is unexplained") {
    int unexplained = 0;
    for (unsigned seed = 301; seed <= 312; ++seed) {
        TracedBook at(seed);
        if (seed % 2 == 0) { // drawn, and in no batch
            at.book().execute("INSERT INTO movement SELECT MAX(id) + 1, 1, 'receipt', NULL, 1, 300, "
                              "'2026-11-25T13:00:00Z', '', "
                              "NULL, NULL, '' FROM movement");
            at.book().execute("INSERT INTO movement SELECT MAX(id) + 1, 1, 'use', 1, NULL, 120, "
                              "'2026-11-25T13:00:00Z', '', "
                              "1, NULL, '' FROM movement");
        }
        for (const auto lot : at.lots()) {
            INFO("seed " << seed << ", lot " << lot.number());
            const auto balance = find_trace(at.book(), of_lot(lot)).balances.at(0);
            std::map<std::string, std::int64_t> sums;
            at.book().query("SELECT CASE WHEN r.id IS NULL THEN m.kind ELSE 'mill' END, "
                            "SUM(CASE WHEN m.to_place_id IS NULL THEN 0 ELSE m.mass_g END - "
                            "CASE WHEN m.from_place_id IS NULL THEN 0 ELSE m.mass_g END) FROM movement m "
                            "LEFT JOIN mill_return r ON r.movement_id = m.id WHERE m.lot_id = $1 GROUP BY 1",
                            {lot}, [&](const Row& row) { sums[row.words(0)] = row.integer(1); });
            CHECK(balance.received.count() == sums["receipt"]);
            CHECK(balance.counted.count() == sums["count"]);
            CHECK(balance.waste.count() == -sums["waste"]);
            CHECK(balance.to_mill.count() == -sums["mill"]);
            const auto stock =
                sums["receipt"] + sums["count"] + sums["waste"] + sums["mill"] + sums["use"] + sums["return"];
            CHECK(balance.in_stock.count() == stock);
            const bool drawn = seed % 2 == 0 && lot == LotId{1};
            CHECK(balance.unexplained.count() == (drawn ? 120 : 0));
            CHECK(balance.used.count() + balance.unexplained.count() == -sums["use"] - sums["return"]);
            if (drawn) {
                CHECK(balance.unexplained_percent == Approx(12000.0 / static_cast<double>(sums["receipt"])));
                ++unexplained;
            }
        }
    }
    CHECK(unexplained == 6);
}

TEST_CASE("A trace looks nothing up but by an index, whatever it begins with") {
    tests::Walks walks;
    TracedBook at(5);
    const auto folder = std::filesystem::temp_directory_path() / "mellowbin-trace-walks";
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
    REQUIRE(at.book().save_copy(folder / "book"));
    {
        const auto book = tests::open_explained(walks, (folder / "book").string());
        walks.is_listening = true;
        for (const auto lot : at.lots())
            find_trace(*book, of_lot(lot));
        for (const auto asks : {TraceOf::product, TraceOf::run, TraceOf::customer}) {
            TraceQuery query;
            query.asks = asks;
            query.product = ProductId{1};
            query.run = RunId{3};
            query.customer = "K-1";
            query.day = day_from_iso("2026-11-25");
            find_trace(*book, query);
        }
    }
    std::filesystem::remove_all(folder);
    std::set<std::string> others;
    for (const auto& step : walks.steps)
        if (!step.starts_with("SCAN p LEFT") && !step.starts_with("SCAN p of") &&
            !step.starts_with("SCAN f of"))
            others.insert(step);
    CHECK(others == std::set<std::string>{});
    CHECK(walks.questions > 50);
}
