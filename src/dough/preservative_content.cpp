#include "dough/preservative_content.h"

namespace mellowbin::dough {

std::optional<Result<PropionateInBread>> preservative_content(const Product& product) {
    const double percent = product.propionate_percent;
    if (percent <= 0)
        return {};
    switch (product.preservative) {
    case Preservative::calcium_propionate:
        return propionate_in_bread(PropionateSalt::calcium, percent, product.bread_yield);
    case Preservative::sodium_propionate:
        return propionate_in_bread(PropionateSalt::sodium, percent, product.bread_yield);
    case Preservative::cultured_wheat:
        break;
    }
    if (product.cultured_acid_percent <= 0)
        return {};
    // As much calcium propionate as holds the acid: the salt's mass is the stricter reading of a limit.
    const double as_salt = percent * product.cultured_acid_percent / 100 / acid_in(PropionateSalt::calcium);
    return propionate_in_bread(PropionateSalt::calcium, as_salt, product.bread_yield);
}

} // namespace mellowbin::dough
