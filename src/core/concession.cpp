#include "core/concession.h"

#include "core/draft_reader.h"
#include "core/lot.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin {
namespace {

std::vector<ProductId> read_products(const ConcessionDraft& draft, const ConcessionContext& context,
                                     DraftReader& reader) {
    constexpr const char* field = "For products";
    std::vector<ProductId> products;
    if (draft.for_all && !draft.products.empty())
        reader.refuse(field, "both all products and some of them were read", "Say all, or name those meant");
    if (draft.for_all)
        return {};
    if (draft.products.empty())
        reader.refuse(field, "none was chosen", "Choose those it may go into, or say that it is for all");
    for (const auto& name : draft.products)
        products.push_back(reader.known(field, name, context.products));
    std::sort(products.begin(), products.end());
    products.erase(std::unique(products.begin(), products.end()), products.end());
    return products;
}

/// "27 Nov", with the year where it is not today's.
std::string day_and_month(Day day, Day today) {
    const bool is_this_year = date::year_month_day{day}.year() == date::year_month_day{today}.year();
    const auto number = static_cast<unsigned>(date::year_month_day{day}.day());
    return fmt::format("{} {}", number, date::format(is_this_year ? "%b" : "%b %Y", day));
}

} // namespace

Result<Concession> accept(const ConcessionDraft& draft, const ConcessionContext& context) {
    DraftReader reader;
    Concession concession;
    concession.deviation = trimmed(draft.deviation);
    if (concession.deviation.empty())
        reader.refuse("Conceded", "is empty; what is let pass is expected",
                      "Say what of the lot is not as it should be, in a few words");
    concession.by = trimmed(draft.by).empty() ? context.person : trimmed(draft.by);
    const auto until = reader.day("Until", draft.until);
    if (trimmed(draft.until).empty())
        reader.refuse("Until", "is empty; a day is expected", "Say the last day on which it may be used");
    else if (until && *until < context.today)
        reader.refuse("Until",
                      fmt::format("{} was read, which is over: today is {}", iso(*until), iso(context.today)),
                      "Enter today or a later day");
    concession.products = read_products(draft, context, reader);
    if (!reader.refusals.empty())
        return reader.refusals;
    concession.until = *until;
    return concession;
}

ConcessionDraft draft_of(const Concession& concession, std::span<const Product> products) {
    ConcessionDraft draft{concession.deviation, concession.by, iso(concession.until), {}, false};
    draft.for_all = concession.products.empty();
    for (const auto& product : products)
        if (std::binary_search(concession.products.begin(), concession.products.end(), product.id))
            draft.products.push_back(product.name);
    return draft;
}

bool stands_on_hold(const Lot& lot, Day day) {
    return lot.state == LotState::released && lot.concession && lot.concession->until < day;
}

std::string against_by_concession(const Lot& lot, const Product& product, Day day) {
    if (!lot.concession)
        return {};
    const auto& concession = *lot.concession;
    if (concession.until < day)
        return fmt::format("its concession ended on {}", short_day(concession.until));
    const bool is_for_it =
        concession.products.empty() ||
        std::binary_search(concession.products.begin(), concession.products.end(), product.id);
    return is_for_it ? std::string() : fmt::format("its concession is not for {}", product.name);
}

std::string products_in_words(const Concession& concession, std::span<const Product> products) {
    if (concession.products.empty())
        return "all products";
    std::string words;
    for (const auto id : concession.products) {
        const auto at =
            std::find_if(products.begin(), products.end(), [&](const Product& p) { return p.id == id; });
        words += (words.empty() ? "" : ", ") + (at == products.end() ? std::string("?") : at->name);
    }
    return words;
}

std::string in_words(const Concession& concession, std::span<const Product> products) {
    return fmt::format("until {} for {}: {}", iso(concession.until), products_in_words(concession, products),
                       concession.deviation);
}

std::string standing_by_concession(const Lot& lot, Day today) {
    if (lot.state != LotState::released || !lot.concession)
        return {};
    return fmt::format("concession {} {}", stands_on_hold(lot, today) ? "ended" : "until",
                       day_and_month(lot.concession->until, today));
}

} // namespace mellowbin
