#include "app/book/beliefs.h"
#include "exchange/taught.h"

#include <algorithm>
#include <iterator>
#include <stdexcept>

namespace mellowbin::app {
namespace {

/// Batches that may still be spoken of: a result comes minutes after its batch. Older ones are settled, so
/// many at a time.
constexpr std::size_t open_batches = 24;
/// A lot in stock that was in no dough for so long is a rest that nobody wrote off: not carried along for
/// ever.
constexpr Days left_lying{180};
/// A mark is kept each so many settled batches; far from the newest only each so many, which is how far apart
/// old ones are left in the end.
constexpr int between_marks = 240, between_old_marks = 8000;
constexpr int recent = 10 * between_marks;
/// Batches read at a time.
constexpr int page = 2000;

bool has_gone(LotState state) { return state == LotState::used_up || state == LotState::rejected; }

} // namespace

/// Where it gives back a batch, one of a lot that was let go is among those taken in or to come: all from
/// that batch on is to be taken in again, with the lot.
class Doughs::Follower {
public:
    Follower(Doughs& doughs, Connection& connection, const Book& book, const Progress& progress)
        : d_(doughs), connection_(connection), book_(book), progress_(progress), taught_(connection),
          kept_(connection, dough::form_of_taught_state()) {}

    void follow();

private:
    using GoBack = std::optional<BatchId>;
    void start_from_mark(std::optional<BatchId> before);
    void go_back_before(BatchId batch);
    [[nodiscard]] GoBack look_again();
    [[nodiscard]] GoBack find_lots_again();
    [[nodiscard]] GoBack take_in_pages();
    [[nodiscard]] GoBack settle();
    [[nodiscard]] GoBack let_go_before(const Taught& taught, const TaughtBatch& batch) const;
    [[nodiscard]] GoBack take_in_open();
    void let_go();
    void keep_mark_if_due();
    void keep_mark();
    void tell_progress(BatchId from) const;
    const LotInDoughs& of_lot(LotId lot);
    [[nodiscard]] bool is_live(const LotInDoughs& lot) const;

    Doughs& d_;
    Connection& connection_;
    const Book& book_;
    const Progress& progress_;
    TaughtStore taught_;
    BeliefStore kept_;
    std::optional<Instant> newest_at_;
    std::map<LotId, LotInDoughs> lots_; ///< as the book has them during this look
    bool is_now_stale_ = false;         ///< to be made again from what is settled and open
};

void Doughs::follow(Connection& connection, const Book& book, const Progress& progress) {
    follow_bakes(book);
    Follower(*this, connection, book, progress).follow();
}

void Doughs::make_anew(Connection& connection, const Book& book, const Progress& progress) {
    Transaction transaction(connection);
    BeliefStore::forget_all(transaction);
    transaction.commit();
    has_followed_ = false;
    follow(connection, book, progress);
}

void Doughs::Follower::follow() {
    auto back = look_again();
    while (back || (back = find_lots_again()) || (back = take_in_pages())) {
        go_back_before(*back);
        back.reset();
    }
    d_.has_followed_ = true;
}

/// What is new since the last look. An exception from here on leaves has_followed_ unset.
Doughs::Follower::GoBack Doughs::Follower::look_again() {
    const auto rows = taught_.newest(); // first: what comes while we read is looked at once more
    const bool is_first = !std::exchange(d_.has_followed_, false);
    GoBack back;
    if (is_first) {
        start_from_mark({});
    } else if (const auto changed = taught_.first_changed_since(d_.rows_)) {
        if (*changed <= d_.settled_.through()) {
            back = changed;
        } else if (!d_.open_.empty() && *changed <= d_.open_.back().id) {
            d_.open_.clear(); // and read again
            is_now_stale_ = true;
        }
    }
    d_.rows_ = rows;
    newest_at_ = taught_.newest_at();
    auto said = taught_.expected();
    is_now_stale_ |= said != d_.said_;
    d_.said_ = std::move(said);
    return back;
}

/// One that cannot be read is passed over; check says so.
void Doughs::Follower::start_from_mark(std::optional<BatchId> before) {
    d_.settled_ = Taught();
    d_.open_.clear();
    d_.since_mark_ = 0;
    d_.gone_.clear();
    d_.untaught_.clear();
    lots_.clear();
    is_now_stale_ = true;
    while (const auto mark = kept_.newest(before)) {
        before = mark->last_batch;
        try {
            d_.settled_ = Taught(mark->last_batch, exchange::taught_from_json(mark->state));
            return;
        } catch (const std::runtime_error&) {
            continue;
        }
    }
}

void Doughs::Follower::go_back_before(BatchId batch) {
    start_from_mark(batch);
    try {
        Transaction transaction(connection_);
        kept_.forget_after(transaction, d_.settled_.through());
        transaction.commit();
    } catch (const BookError&) {
        // Derived: whoever begins at a mark that should be gone comes back here.
    }
}

/// Of the lots that may be asked for: those let go that may be mixed after all, since a count found more, a
/// batch was taken back, or they are no longer rejected. What was known of the others is recalled.
Doughs::Follower::GoBack Doughs::Follower::find_lots_again() {
    for (const auto& lot : book_.lots) {
        if (d_.settled_.water.knows(lot.id) || d_.untaught_.contains(lot.id) ||
            (has_gone(lot.state) && d_.settled_.water.was_let_go(lot.id)))
            continue;
        const auto last = taught_.last_that_taught(lot.id, d_.settled_.through());
        if (!last) {
            d_.untaught_.insert(lot.id);
            continue;
        }
        if (is_live(of_lot(lot.id)))
            return last;
        if (d_.settled_.water.was_let_go(lot.id))
            continue;
        if (const auto gone = kept_.let_go(lot.id, d_.settled_.through())) {
            d_.settled_.water.recall(lot.id, {gone->mean, gone->variance});
            is_now_stale_ = true;
        }
    }
    return {};
}

/// What came after the last batch that was seen, a page at a time.
Doughs::Follower::GoBack Doughs::Follower::take_in_pages() {
    const auto from = d_.settled_.through();
    for (bool is_last = false; !is_last;) {
        auto batches = taught_.after(d_.open_.empty() ? d_.settled_.through() : d_.open_.back().id, page);
        is_last = static_cast<int>(batches.size()) < page;
        std::move(batches.begin(), batches.end(), std::back_inserter(d_.open_));
        if (const auto back = settle())
            return back;
        if (!is_last)
            tell_progress(from);
    }
    return take_in_open();
}

Doughs::Follower::GoBack Doughs::Follower::take_in_open() {
    if (is_now_stale_)
        d_.now_ = d_.settled_;
    is_now_stale_ = false;
    for (const auto& batch : d_.open_) {
        if (batch.id <= d_.now_.through())
            continue;
        if (const auto back = let_go_before(d_.now_, batch))
            return back;
        d_.now_.take_in(batch, d_.said_);
    }
    d_.now_.hear(d_.said_);
    return {};
}

/// Far behind the newest nothing is said any more. A span of batches at a time, also where a whole book is
/// taken in: so nothing grows meanwhile, and looking for lots to let go costs little beside.
Doughs::Follower::GoBack Doughs::Follower::settle() {
    std::size_t settled = 0;
    while (settled + 2 * open_batches <= d_.open_.size()) {
        for (const auto end = settled + open_batches; settled < end; ++settled) {
            if (const auto back = let_go_before(d_.settled_, d_.open_[settled]))
                return back;
            d_.settled_.take_in(d_.open_[settled], d_.said_);
        }
        let_go();
        d_.since_mark_ += static_cast<int>(open_batches);
        keep_mark_if_due();
        is_now_stale_ = true;
    }
    d_.open_.erase(d_.open_.begin(), d_.open_.begin() + static_cast<std::ptrdiff_t>(settled));
    return {};
}

/// A lot of the batch that taught before and is not known any more: its last batch that did.
Doughs::Follower::GoBack Doughs::Follower::let_go_before(const Taught& taught,
                                                         const TaughtBatch& batch) const {
    if (!teaches_water(batch))
        return {};
    for (const auto& part : batch.flour)
        if (!taught.water.knows(part.lot))
            if (const auto last = taught_.last_that_taught(part.lot, BatchId{batch.id.number() - 1}))
                return last;
    return {};
}

/// Of lots that no later batch is made from, nor any to come. Those of a product's newest dough stay: the
/// levers ask how far it lay from its optimum.
void Doughs::Follower::let_go() {
    std::set<LotId> asked_for;
    for (const auto& [product, lots] : d_.settled_.newest())
        asked_for.insert(lots.begin(), lots.end());
    for (const auto id : d_.settled_.water.lots()) {
        if (asked_for.contains(id))
            continue;
        const auto& lot = of_lot(id);
        if (lot.last_batch > d_.settled_.through() || is_live(lot))
            continue;
        const auto was = d_.settled_.water.let_go(id);
        d_.gone_.push_back({id, d_.settled_.through(), was.mean, was.variance});
        d_.untaught_.erase(id);
    }
}

void Doughs::Follower::keep_mark_if_due() {
    const bool is_recent = d_.rows_.batch - d_.settled_.through().number() < recent;
    if (d_.since_mark_ >= (is_recent ? between_marks : between_old_marks))
        keep_mark();
}

/// Not where a batch in it was changed since this look began: the next look makes it anew. Of the lots let go
/// only those that may be asked for are held on to.
void Doughs::Follower::keep_mark() {
    d_.since_mark_ = 0;
    try {
        Transaction transaction(connection_);
        const auto changed = taught_.first_changed_since(d_.rows_);
        if (changed && *changed <= d_.settled_.through())
            return;
        kept_.keep(transaction, {d_.settled_.through(), exchange::taught_as_json(d_.settled_.state())},
                   d_.gone_);
        transaction.commit();
    } catch (const BookError&) {
        return; // derived: a start without it takes longer
    }
    for (const auto& gone : d_.gone_)
        if (!book_.lot(gone.lot))
            d_.settled_.water.forget(gone.lot);
    d_.gone_.clear();
}

void Doughs::Follower::tell_progress(BatchId from) const {
    const auto all = static_cast<double>(d_.rows_.batch - from.number());
    if (progress_ && all > 0)
        progress_(std::min(1.0, static_cast<double>(d_.settled_.through().number() - from.number()) / all));
}

const LotInDoughs& Doughs::Follower::of_lot(LotId id) {
    const auto known = lots_.find(id);
    if (known != lots_.end())
        return known->second;
    return lots_[id] = taught_.lot(id).value_or(LotInDoughs{LotState::used_up, {}, {}});
}

/// Of a lot that was in a batch: whether a batch to come may be made from it.
bool Doughs::Follower::is_live(const LotInDoughs& lot) const {
    return !has_gone(lot.state) && lot.last_at && newest_at_ && *newest_at_ - *lot.last_at < left_lying;
}

} // namespace mellowbin::app
