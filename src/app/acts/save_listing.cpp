#include "app/acts/save_listing.h"

#include "app/acts/intent.h"
#include "app/acts/saved_file.h"
#include "app/acts/state.h"
#include "app/book/durable_file.h"
#include "app/models/listings.h"
#include "core/counted.h"
#include "core/typed_text.h"
#include "exchange/listing_csv.h"
#include "exchange/listing_xlsx.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view stopped = "it was stopped; nothing was saved";

Result<ListingQuery> read_query(const State& state, const SaveListing& act) {
    const auto from = read_day("From", act.from);
    const auto until = read_day("To", act.until);
    Refusals refusals;
    if (!from)
        append(refusals, from.refusals());
    if (!until)
        append(refusals, until.refusals());
    if (!refusals.empty())
        return refusals;
    ListingQuery query{state.today(), state.today(), act.mill, act.words};
    if (const auto* kind = find_listing(act.name)) {
        query.until = until->value_or(state.today() + kind->after);
        query.from = from->value_or(std::min(query.until, state.today()) - kind->before);
    }
    return query;
}

std::string write_xlsx(const Listing& list, const fs::path& file, const SaveListing& act) {
    const auto written = exchange::write_listing_xlsx(list, file, {act.share_done, act.stop});
    if (!written)
        return in_words(written.refusals().front());
    return *written == exchange::Written::stopped ? std::string(stopped) : "";
}

std::string write_list(const Listing& list, const fs::path& file, bool is_xlsx, const SaveListing& act) {
    return is_xlsx ? write_xlsx(list, file, act) : write_bytes(file, exchange::write_listing_csv(list));
}

} // namespace

Result<Told> carry_out(State& state, const SaveListing& act) {
    const auto query = read_query(state, act);
    if (!query)
        return query.refusals();
    const auto list = make_listing(state, act.name, *query);
    if (!list)
        return list.refusals();
    const auto file = file_to_save(state, act.file, {".csv", ".xlsx"});
    if (!file)
        return file.refusals();
    const bool is_xlsx = lower_case(file->extension().string()) == ".xlsx";
    const auto failed = make_durably(
        *file, [&](const fs::path& unfinished) { return write_list(*list, unfinished, is_xlsx, act); });
    if (!failed.empty())
        return not_saved(*file, failed);
    return Told{fmt::format("{} saved to {}: {}", list->title, file->string(),
                            counted(list->rows.size(), "row", "rows"))};
}

} // namespace mellowbin::app
