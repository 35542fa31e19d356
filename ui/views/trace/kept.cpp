#include "ui/views/trace/kept.h"

namespace mellowbin::views {

void keep(auto& k, Kind<HoldQuestion> auto& question) {
    auto& [reason, asked] = question;
    k("reason", reason);
}

void keep_begun(KeptWriter& k, const TraceView& view) {
    if (!view.holding || view.holding->reason.empty())
        return;
    k.begun("a hold of everything concerned");
    k("asks", view.asks);
    k("of", view.of);
    k("day", view.day);
    k("holding", view.holding);
}

void take_up(KeptReader& k, TraceView& view) {
    if (!k.has("holding"))
        return;
    k("asks", view.asks);
    k("of", view.of);
    k("day", view.day);
    k("holding", view.holding);
    view.has_asked = false; // it is traced anew, and then the question stands again
}

} // namespace mellowbin::views
