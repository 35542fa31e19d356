#include "core/limit_draft.h"

#include "core/draft_reader.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

constexpr Bounds figures{0, 100'000, "mg/kg"};

std::string figure_words(std::optional<double> figure) {
    return figure ? fmt::format("{}", *figure) : std::string{};
}

struct Read {
    LimitStatus status{};
    std::optional<double> figure;
};

std::optional<LimitStatus> read_status(DraftReader& reader, std::string_view typed) {
    std::string keys;
    for (const auto status : all_limit_statuses()) {
        if (key_of(status) == trimmed(typed) || same_words(name_of(status), trimmed(typed)))
            return status;
        keys += (keys.empty() ? "" : ", ") + std::string(key_of(status));
    }
    reader.refuse("Status",
                  trimmed(typed).empty() ? "is empty" : fmt::format("\"{}\" is not known", excerpt(typed)),
                  "Choose one of: " + keys);
    return {};
}

/// A figure goes with a permission up to it, and a nought with a prohibition.
void hold_together(DraftReader& reader, LimitStatus status, std::optional<double> figure) {
    if (status == LimitStatus::permitted && !figure)
        reader.refuse("Limit", "is empty",
                      "Enter the figure of the law, or choose that it is good manufacturing practice");
    const bool is_nought = figure == 0.0 && status == LimitStatus::not_permitted;
    if (status != LimitStatus::permitted && figure && !is_nought)
        reader.refuse("Limit",
                      fmt::format("{} was read, and \"{}\" goes without a figure", *figure, name_of(status)),
                      "Empty it, or choose that it is permitted up to a figure");
}

Result<Read> read(const LimitDraft& draft) {
    DraftReader reader;
    const auto figure = reader.number("Limit", draft.figure, figures);
    const bool is_figure_read = reader.refusals.empty();
    const auto status = read_status(reader, draft.status);
    if (is_figure_read && status)
        hold_together(reader, *status, figure);
    if (trimmed(draft.source).empty())
        reader.refuse("Source", "is empty", "Enter the statute and section that says so");
    if (!reader.refusals.empty())
        return reader.refusals;
    return Read{*status, figure};
}

template <class Row> void take(Row& row, const Read& read, const LimitDraft& draft, const Row& before) {
    row.status = read.status;
    row.source = trimmed(draft.source);
    row.source_date = trimmed(draft.source_date);
    if (row == before)
        return;
    row.is_confirmed = false;
    row.confirmed_by.clear();
}

} // namespace

LimitDraft draft_of(const LimitRow& row) {
    return {figure_words(row.limit ? std::optional{row.limit->value()} : std::nullopt),
            std::string(key_of(row.status)), row.source, row.source_date};
}

LimitDraft draft_of(const PropionateRow& row) {
    return {figure_words(row.mg_per_kg), std::string(key_of(row.status)), row.source, row.source_date};
}

Result<LimitRow> changed(LimitRow row, const LimitDraft& draft) {
    const auto typed = read(draft);
    if (!typed)
        return typed.refusals();
    const auto before = row;
    row.limit = typed->figure ? std::optional{OxidantPpm{*typed->figure}} : std::nullopt;
    take(row, *typed, draft, before);
    return row;
}

Result<PropionateRow> changed(PropionateRow row, const LimitDraft& draft) {
    const auto typed = read(draft);
    if (!typed)
        return typed.refusals();
    const auto before = row;
    row.mg_per_kg = typed->figure;
    take(row, *typed, draft, before);
    return row;
}

} // namespace mellowbin
