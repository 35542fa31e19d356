#include "dough/caution.h"

namespace mellowbin::dough {
namespace {

Caution hazard(std::string words, std::string source) {
    return {CautionKind::hazard, CautionAt::oxidant, std::move(words), std::move(source)};
}

void add_own_hazards(Substance substance, std::vector<Caution>& all) {
    switch (substance) {
    case Substance::potassium_bromate:
    case Substance::calcium_bromate:
        all.push_back(
            hazard("Strong oxidiser: keep it from acids, fats, flour dust and reducers, ascorbic acid and "
                   "cysteine among them; it feeds fire.",
                   "UN 1484; fire code rating from secondary pages"));
        all.push_back(
            hazard("Toxic if swallowed: hearing loss and kidney failure. Possibly causes cancer in people "
                   "(group 2B); classed in the EU as presumed to (1B). Gloves, mask, no dust.",
                   "IARC 1999; EU harmonised classification"));
        break;
    case Substance::potassium_iodate:
    case Substance::calcium_iodate:
    case Substance::calcium_peroxide:
    case Substance::ammonium_persulphate:
    case Substance::potassium_persulphate:
        all.push_back(
            hazard("Oxidiser: keep it from anything that burns and from reducers, flour dust among them.",
                   "from memory; the supplier's safety data sheet holds"));
        break;
    case Substance::azodicarbonamide:
        all.push_back(hazard("Its dust sensitises the airways and has caused asthma in workers: weigh under "
                             "extraction, or use a dust-suppressed form.",
                             "WHO CICAD 16, 1999"));
        break;
    case Substance::glucose_oxidase:
        all.push_back(
            hazard("Enzyme dust sensitises the airways: use liquids, pastes or dust-suppressed forms.",
                   "HSE, COSHH in baking"));
        break;
    case Substance::benzoyl_peroxide:
    case Substance::acetone_peroxide:
        all.push_back(hazard("For the mill only: not to be handled in a bakery.", "from memory"));
        break;
    case Substance::ascorbic_acid:
        all.push_back(hazard("Small mistakes are large doses: 10 g too much in 100 kg of flour is 100 mg/kg.",
                             "arithmetic"));
        break;
    case Substance::l_cysteine:
    case Substance::l_cysteine_hydrochloride:
        all.push_back(hazard("Makes dough weaker; keep it from oxidisers.", "from memory"));
        break;
    }
}

} // namespace

std::vector<Caution> standing_cautions() {
    return {
        {CautionKind::hazard, CautionAt::flour,
         "Flour dust explodes and causes asthma: tip bags without clouds, no compressed air, no dry "
         "sweeping.",
         "HSE, COSHH in baking; UK millers' association 2004"},
        {CautionKind::allergen, CautionAt::flour,
         "Contains wheat (gluten); premix carriers may hold wheat or soya.", "from memory"},
        {CautionKind::raw_food, CautionAt::flour, "Flour and dough are raw: do not taste.",
         "FDA and CDC advice"},
        {CautionKind::law, CautionAt::card,
         "Local law and qualified staff come before this card; limits differ by place and change.", ""},
    };
}

std::vector<Caution> hazards_of(Substance substance) {
    std::vector<Caution> all;
    add_own_hazards(substance, all);
    all.push_back(
        hazard("Weighed by trained staff with the supplier's safety data sheet at hand; a second person "
               "checks the scale.",
               "common practice, no source"));
    return all;
}

} // namespace mellowbin::dough
