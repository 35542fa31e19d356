#pragma once

#include "ui/views/common/keep.h"
#include "ui/views/common/take_back.h"

#include <array>
#include <optional>
#include <string>
#include <variant>

namespace mellowbin::views {

inline void keep(auto& k, Kind<TakeBack> auto& question) {
    static constexpr std::array<std::string_view, 7> kinds{"retest",    "log",    "bake",    "keeping",
                                                           "complaint", "answer", "dispatch"};
    auto& [what, words, reason, asked] = question;
    static_assert(kinds.size() == std::variant_size_v<decltype(TakeBack::what)>);
    if constexpr (std::remove_reference_t<decltype(k)>::writes) {
        const auto kind = what.index();
        keep_word(k, "kind", kind, kinds);
        std::visit([&](auto id) { k("record", id); }, what);
    } else {
        std::size_t kind = 0;
        keep_word(k, "kind", kind, kinds);
        const auto read = [&, &record = what]<class RecordId>(RecordId id) {
            k("record", id);
            record = id;
        };
        if (kind == 0)
            read(RetestId{});
        else if (kind == 1)
            read(ClimateLogId{});
        else if (kind == 2)
            read(BakeId{});
        else if (kind == 3)
            read(KeepingId{});
        else if (kind == 4)
            read(ComplaintId{});
        else if (kind == 5)
            read(AnsweredId{});
        else
            read(DispatchId{});
    }
    k("words", words);
    k("reason", reason);
}

/// While its reason is typed.
inline void keep_question(KeptWriter& k, std::string_view name, const std::optional<TakeBack>& question) {
    if (!question || question->reason.empty())
        return;
    k.begun("a record to take back: " + question->words);
    k(name, *question);
}

/// A question that stands there stays.
inline void take_up_question(KeptReader& k, std::string_view name, std::optional<TakeBack>& question) {
    if (!question && k.has(name))
        k(name, question);
}

} // namespace mellowbin::views
