#include "app/models/touched_runs.h"

#include "app/models/run_card.h"
#include "dough/card_ruled.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

bool is_ruled_otherwise(const Station& s, const Run& run, const Product& now, const Product& later,
                        const Line& line, const Ruled& then) {
    const auto before = run_card(s, run, now, line);
    const auto after = now == later ? nullptr : run_card(s, run, later, line);
    dough::CardInput input = after ? after->input : before->input;
    input.law.rows = then.limits;
    input.propionate_rows = then.propionates;
    return dough::ruled(before->input, before->card) != dough::ruled(input, dough::make_card(input));
}

} // namespace

IsConcerned sold_in(const Book& book, const std::string& market) {
    return [&book, market](const Product& product) {
        const auto chain = dough::with_wider(book.markets, product.market);
        return std::find(chain.begin(), chain.end(), market) != chain.end();
    };
}

std::vector<const Run*> runs_touched(const Station& s, const Ruled& then, const IsConcerned& is_concerned) {
    std::vector<const Run*> touched;
    for (const auto& run : s.book.runs) {
        const Product* now = s.book.product(run.product);
        const Line* line = s.book.line(run.line);
        if (run.day < s.today() || !now || !line || !is_concerned(*now) ||
            s.book.batches_mixed(run) >= run.batches)
            continue;
        const auto later = std::find_if(then.products.begin(), then.products.end(),
                                        [&](const Product& product) { return product.id == now->id; });
        if (later != then.products.end() && is_ruled_otherwise(s, run, *now, *later, *line, then))
            touched.push_back(&run);
    }
    return touched;
}

std::string named(const std::vector<std::string>& codes) {
    constexpr std::size_t most_named = 8;
    std::string words;
    for (std::size_t i = 0; i < std::min(most_named, codes.size()); ++i)
        words += (i > 0 ? ", " : "") + codes[i];
    if (codes.size() > most_named)
        words += fmt::format(", and {} more", codes.size() - most_named);
    return words;
}

std::string touched_in_words(const std::vector<const Run*>& runs) {
    if (runs.empty())
        return {};
    std::vector<std::string> codes;
    for (const Run* run : runs)
        codes.push_back(run->code);
    return fmt::format("; touches {} {}: {}", runs.size(), runs.size() == 1 ? "run" : "runs", named(codes));
}

} // namespace mellowbin::app
