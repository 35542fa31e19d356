#include "ui/views/lots/concession_fields.h"

#include "app/models/lot_results.h"
#include "ui/widgets/ui.h"

#include <algorithm>
#include <string>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

/// Ticks for the products of the lot's flour, and for one that the concession named before.
std::vector<std::string> offered(const ConcessionDraft& draft, const app::LotSheet& sheet) {
    auto names = sheet.products;
    for (const auto& name : draft.products)
        if (std::find(names.begin(), names.end(), name) == names.end())
            names.push_back(name);
    return names;
}

void product_ticks(ConcessionDraft& draft, const app::LotSheet& sheet, const Refusals& refusals) {
    ui::text("For products");
    if (ui::tick("All products", draft.for_all, {.note = "those to come, too"}) && draft.for_all)
        draft.products.clear();
    ui::grid(10_em, [&] {
        for (const auto& name : offered(draft, sheet)) {
            const auto at = std::find(draft.products.begin(), draft.products.end(), name);
            bool is_chosen = at != draft.products.end();
            if (!ui::tick(name, is_chosen, {.blocked = draft.for_all ? "all are" : ""}))
                continue;
            if (is_chosen)
                draft.products.push_back(name);
            else
                draft.products.erase(at);
        }
    });
    Refusals of_products;
    std::copy_if(refusals.begin(), refusals.end(), std::back_inserter(of_products),
                 [](const Refusal& refusal) { return refusal.field == "For products"; });
    ui::all_refusals(of_products);
}

} // namespace

void begin_concession(LotQuestion& question, const app::LotSheet& sheet) {
    auto& draft = question.concession;
    if (draft.deviation.empty())
        draft.deviation = app::failing_as_text(sheet.failing);
    question.first = draft;
}

void concession_fields(ConcessionDraft& draft, const app::LotSheet& sheet, const Refusals& refusals,
                       Day today) {
    ui::text_field({.label = "Conceded", .refusals = &refusals, .note = "what of the lot is let pass"},
                   draft.deviation);
    ui::text_field({.label = "Conceded by", .hint = "empty: you", .refusals = &refusals}, draft.by);
    ui::date_field({.label = "Until", .hint = "YYYY-MM-DD", .refusals = &refusals, .note = "its last day"},
                   draft.until, today);
    product_ticks(draft, sheet, refusals);
}

} // namespace mellowbin::views
