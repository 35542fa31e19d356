#pragma once

#include "app/acts/notice.h"
#include "core/result.h"

#include <cstdint>
#include <map>
#include <optional>
#include <utility>

namespace mellowbin::views {

/// Something a screen asked for: sent, then done, refused or failed. The next notice answers it; refusals
/// then belong to the form that asked and to no other, and stay with what was typed until the next answer.
class Asked {
public:
    Refusals refusals;

    void ask(const app::Notice& last) {
        is_asked_ = true;
        last_number_ = last.number;
    }
    [[nodiscard]] bool is_waiting() const { return is_asked_; }
    /// What came of it, told once; nothing while it has not come, or nothing was asked.
    std::optional<app::Notice::Kind> take_answer(const app::Notice& notice);
    /// True once when it was done: the form may be emptied.
    bool is_done(const app::Notice& notice) { return take_answer(notice) == app::Notice::Kind::done; }

private:
    bool is_asked_ = false;
    std::uint64_t last_number_ = 0;
};

/// What is typed of records, a draft for each, so that a look at another one loses nothing: whose form is
/// open, whose draft was sent, and whose the refusals are.
template <class Key, class Draft> class Form {
public:
    std::map<Key, Draft> drafts; ///< until they are accepted
    std::map<Key, Draft> firsts; ///< what each began with; not there: empty
    std::optional<Key> open;     ///< whose form stands there
    bool wants_focus = false;    ///< it was opened just now

    /// Opens its form; what was typed for it before stays, else it begins as given.
    void open_for(const Key& key, const Draft& first = {}) {
        open = key;
        wants_focus = true;
        begin(key, first);
    }
    /// Its draft; begun as given where there is none.
    Draft& begin(const Key& key, const Draft& first = {}) {
        const auto [at, is_new] = drafts.try_emplace(key, first);
        if (is_new)
            firsts.insert_or_assign(key, first);
        return at->second;
    }
    /// What was typed is in the book; the next draft begins so.
    void begin_again(const Key& key, const Draft& first = {}) {
        drafts.insert_or_assign(key, first);
        firsts.insert_or_assign(key, first);
    }
    void forget(const Key& key) {
        drafts.erase(key);
        firsts.erase(key);
    }
    [[nodiscard]] bool is_open_for(const Key& key) const { return open == key; }
    /// Not answered yet: a second press sends nothing.
    [[nodiscard]] bool is_sent(const Key& key) const { return sent_ == key; }
    [[nodiscard]] const Refusals& refusals_of(const Key& key) const {
        static const Refusals none;
        return refused_ == key ? asked_.refusals : none;
    }
    void ask(const Key& key, const app::Notice& last) {
        sent_ = key;
        asked_.ask(last);
    }
    /// Whose draft was accepted just now. `accepted` counts what the model's screen accepted: only when it
    /// moved and the answer is no refusal is the draft in the book, so that none is emptied by a notice of
    /// something else.
    std::optional<Key> take_accepted(std::uint64_t accepted, const app::Notice& notice) {
        const auto answer = asked_.take_answer(notice);
        const bool has_moved = accepted_seen_ && *accepted_seen_ != accepted;
        accepted_seen_ = accepted;
        if (!sent_ || !answer)
            return {};
        const auto key = std::exchange(sent_, std::nullopt);
        if (has_moved && *answer != app::Notice::Kind::refused)
            return key;
        refuse(*key, asked_.refusals);
        return {};
    }
    /// These are about its draft, which stays as typed.
    void refuse(const Key& key, Refusals refusals) {
        refused_ = key;
        asked_.refusals = std::move(refusals);
    }
    /// Accepted, the draft is emptied and its form closes; refused, all stays as typed.
    void take_answer(std::uint64_t accepted, const app::Notice& notice) {
        const auto key = take_accepted(accepted, notice);
        if (!key)
            return;
        forget(*key);
        if (open == key)
            open.reset();
    }

private:
    Asked asked_;
    std::optional<Key> sent_, refused_;
    std::optional<std::uint64_t> accepted_seen_; ///< the model's count, seen last
};

} // namespace mellowbin::views
