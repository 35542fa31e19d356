#pragma once

#include "app/acts/notice.h"
#include "app/models/mixer.h"
#include "ui/views/common/awaited.h"

#include <cstdint>
#include <map>
#include <optional>
#include <utility>

namespace mellowbin::views {

/// What is typed on the Mixer's screen, a draft for each record, so that a look at another one loses nothing:
/// whose form is open, whose is being answered, and whose the refusals are.
template <class Key, class Draft> struct Drafts {
    std::map<Key, Draft> drafts; ///< until they are written
    std::optional<Key> open;     ///< whose form stands there
    bool wants_focus = false;    ///< it was opened just now

    std::optional<Key> sent; ///< not answered yet: a second press sends nothing
    Key refused{};           ///< whose draft the refusals are about
    Refusals refusals;
    Awaited answer;
    std::optional<std::uint64_t> logged_seen; ///< the model's count, seen last

    /// Opens its form; what was typed for it before stays, else it begins as given.
    void open_for(const Key& key, const Draft& first = {}) {
        open = key;
        wants_focus = true;
        drafts.try_emplace(key, first);
    }
    [[nodiscard]] bool is_open_for(const Key& key) const { return open == key; }
    [[nodiscard]] const Refusals& refusals_of(const Key& key) const {
        static const Refusals none;
        return refused == key ? refusals : none;
    }
    void ask(const Key& key, const app::Notice& last) {
        sent = key;
        refusals.clear();
        answer.ask(last);
    }
    /// Written, the draft is emptied and its form closes; refused, all stays as typed.
    void take_answer(const app::MixerModel& model, const app::Notice& notice) {
        const auto kind = answer.take_answer(notice);
        const bool is_logged = logged_seen && *logged_seen != model.batches_logged;
        logged_seen = model.batches_logged;
        if (!sent)
            return;
        if (is_logged || kind == app::Notice::Kind::done) {
            drafts.erase(*sent);
            if (open == sent)
                open.reset();
        } else if (kind == app::Notice::Kind::refused) {
            refused = *sent;
            refusals = notice.refusals;
        }
        if (is_logged || kind)
            sent.reset();
    }
};

} // namespace mellowbin::views
