#pragma once

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::testing {

/// A flour of the Canadian Grain Commission's harvest and export reports, milled and baked by the Canadian
/// short process. Percentages at 14 % moisture.
struct CgcBake {
    int id = 0;
    std::string period;  ///< as printed: "2013 crop", "2016-17 Q3-4 Pacific"
    int crop = 0;        ///< its first year
    std::string process; ///< laboratory mill and extraction: "B74"
    double protein = 0;
    double wet_gluten = 0;
    double starch_damage = 0;
    double farinograph = 0;
    double bake = 0; ///< absorption of the dough

    [[nodiscard]] double offset() const { return bake - farinograph; }
    [[nodiscard]] bool is_mean_of_years() const { return id == 4 || id == 8; }
};

/// The rows of flour_cgc.csv in MELLOWBIN_REFERENCE_DATA; nothing, with a warning in the test, where it is
/// not there. Throws std::runtime_error for another table.
std::optional<std::vector<CgcBake>> cgc_bakes();

/// A least-squares fit with a constant, by the GNU Scientific Library.
struct Regression {
    std::vector<double> coefficients; ///< the constant first
    double r_squared = 0;
    double residual_sd = 0;

    [[nodiscard]] double at(const std::vector<double>& row) const;
};
/// Each row without the constant's 1; more rows than unknowns.
Regression regression(const std::vector<std::vector<double>>& rows, const std::vector<double>& answers);

} // namespace mellowbin::testing
