#include "exchange/dispatch_file.h"

#include "core/typed_text.h"
#include "exchange/csv.h"

#include <fmt/format.h>

#include <array>

namespace mellowbin::exchange {
namespace {

constexpr std::size_t most_lines = 10'000;

struct Head {
    std::string_view name;
    std::string DispatchDraft::*field;
};
constexpr std::array heads{
    Head{"product", &DispatchDraft::product},
    Head{"run", &DispatchDraft::run},
    Head{"customer", &DispatchDraft::customer},
    Head{"pieces", &DispatchDraft::pieces},
    Head{"kg", &DispatchDraft::kg},
    Head{"piece g", &DispatchDraft::piece_g},
    Head{"day", &DispatchDraft::day},
    Head{"note", &DispatchDraft::note},
    Head{"reason", &DispatchDraft::reason},
};

/// Which field of a draft each column is.
std::vector<std::string DispatchDraft::*> fields_of(const CsvTable& table, Refusals& refusals) {
    std::vector<std::string DispatchDraft::*> fields;
    const auto where = fmt::format("Line {}", table.head_line);
    for (const auto& head : table.heads) {
        const auto known = std::find_if(heads.begin(), heads.end(),
                                        [&](const Head& one) { return same_words(one.name, head); });
        if (known == heads.end())
            refusals.push_back(
                {where, fmt::format("the head \"{}\" is not known", excerpt(head)),
                 "Name it product, run, customer, pieces, kg, piece g, day, note or reason, or "
                 "take the column out"});
        fields.push_back(known == heads.end() ? nullptr : known->field);
    }
    const auto has = [&](std::string DispatchDraft::*field) {
        return std::find(fields.begin(), fields.end(), field) != fields.end();
    };
    if (!has(&DispatchDraft::customer))
        refusals.push_back({where, "no column is headed \"customer\"", "Add one with the code of each"});
    if (!has(&DispatchDraft::run) && !has(&DispatchDraft::product))
        refusals.push_back({where, "no column is headed \"run\" or \"product\"", "Add one of them"});
    if (!has(&DispatchDraft::pieces) && !has(&DispatchDraft::kg))
        refusals.push_back({where, "no column is headed \"pieces\" or \"kg\"", "Add one of them"});
    return fields;
}

} // namespace

Result<std::vector<DispatchLine>> read_dispatches(std::string_view bytes) {
    const auto table = read_csv(bytes);
    if (!table)
        return table.refusals();
    Refusals refusals;
    const auto fields = fields_of(*table, refusals);
    if (table->rows.empty())
        refusals.push_back({"File", "has no line below its head", "Write a line for each dispatch"});
    if (table->rows.size() > most_lines)
        refusals.push_back({"File",
                            fmt::format("has {} lines; {} at most are read", table->rows.size(), most_lines),
                            "Part it"});
    if (!refusals.empty())
        return refusals;
    std::vector<DispatchLine> lines;
    for (const auto& row : table->rows) {
        auto& line = lines.emplace_back();
        line.line = row.line;
        for (std::size_t i = 0; i < fields.size() && i < row.fields.size(); ++i)
            line.dispatch.*fields[i] = trimmed(row.fields[i]);
    }
    return lines;
}

} // namespace mellowbin::exchange
