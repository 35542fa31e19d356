#include "app/models/mill_complaints.h"

#include "app/book/fields.h"
#include "app/book/station.h"
#include "db/complaint_store.h"
#include "db/lot_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string code_of(const Station& s, const std::optional<LotId>& id) {
    if (!id)
        return {};
    if (const Lot* lot = s.book.lot(*id))
        return lot->code;
    const auto past = LotStore(*s.connection).find(*id);
    return past ? past->code : "?";
}

ComplaintRow row_of(const Station& s, const Complaint& complaint) {
    ComplaintRow row;
    row.id = complaint.id;
    row.lot = code_of(s, complaint.lot);
    row.about = about_in_words(complaint);
    row.words = in_words(complaint, row.lot);
    row.noticed = fmt::format("Noticed {} · {}", iso(complaint.noticed_on), complaint.who);
    row.kg = to_kilograms(complaint.affected).value();
    row.noticed_on = complaint.noticed_on;
    row.is_withdrawn = complaint.is_withdrawn;
    row.is_open = !complaint.answer && !complaint.is_withdrawn;
    if (complaint.answer) {
        row.answered_on = complaint.answer->answered_on;
        row.answer = fmt::format("Answered {}: {} · {}", iso(complaint.answer->answered_on),
                                 complaint.answer->words, complaint.answer->who);
    }
    row.changed = s.changed_elsewhere(record_of(complaint.id));
    return row;
}

} // namespace

std::vector<ComplaintRow> complaints_of(const Station& s, MillId mill, Day from, Day until) {
    const ComplaintStore store(*s.connection);
    auto complaints = store.of_mill(mill, from, until);
    for (auto& open : store.open_of(mill))
        if (open.noticed_on < from || open.noticed_on > until)
            complaints.push_back(std::move(open));
    std::vector<ComplaintRow> rows;
    for (const auto& complaint : complaints)
        rows.push_back(row_of(s, complaint));
    std::stable_sort(rows.begin(), rows.end(), [](const ComplaintRow& a, const ComplaintRow& b) {
        if (a.is_open != b.is_open)
            return a.is_open;
        return std::pair(a.noticed_on, a.id) > std::pair(b.noticed_on, b.id);
    });
    return rows;
}

std::string in_words(const Complaint& complaint, const std::string& lot) {
    return fmt::format("{}{}{}: {}", about_in_words(complaint), lot.empty() ? "" : ", lot " + lot,
                       complaint.affected > Grams{0} ? ", " + kg_words(complaint.affected) : std::string(),
                       complaint.words);
}

} // namespace mellowbin::app
