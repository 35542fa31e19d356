#include "dough/keeping_ruling.h"

#include "dough/preservative_content.h"

namespace mellowbin::dough {
namespace {

std::string joined(const std::vector<std::string>& sentences) {
    std::string words;
    for (const auto& sentence : sentences)
        words += (words.empty() ? "" : "; ") + sentence;
    return words;
}

} // namespace

std::string KeepingRuling::words() const {
    if (is_withheld())
        return joined(against);
    std::vector<std::string> lines;
    for (const auto& one : judged)
        lines.push_back(one.words);
    return joined(lines);
}

std::optional<KeepingRuling> rule_on_keeping(const Product& product, std::span<const PropionateRow> rows,
                                             std::span<const Market> markets,
                                             std::optional<double> bread_ph) {
    if (product.propionate_percent <= 0)
        return {};
    KeepingRuling ruling;
    const auto content = preservative_content(product);
    if (content && *content)
        ruling.in_bread = **content;
    ruling.judged = judge_propionate(rows, markets, product.market, product.sold_as, ruling.in_bread);
    for (const auto& one : ruling.judged)
        if (one.keeping != Keeping::permitted)
            ruling.against.push_back(one.words);
    if (content && !*content)
        for (const auto& refusal : content->refusals())
            ruling.against.push_back(mellowbin::in_words(refusal));
    if (bread_ph)
        if (const auto share = undissociated_share(*bread_ph); !share)
            ruling.against.push_back(mellowbin::in_words(share.refusals().front()));
    return ruling;
}

} // namespace mellowbin::dough
