#include "cgc_bakes.h"

#include "support/catch.h"

#include <cmath>
#include <filesystem>
#include <fstream>
#include <gsl/gsl_multifit.h>
#include <map>
#include <memory>
#include <sstream>
#include <stdexcept>

namespace mellowbin::testing {
namespace {

std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells(1);
    for (const char c : line)
        if (c == ',')
            cells.emplace_back();
        else if (c != '\r')
            cells.back() += c;
    return cells;
}

CgcBake read(const std::map<std::string, std::string>& cell) {
    CgcBake bake;
    bake.id = std::stoi(cell.at("id"));
    bake.period = cell.at("period");
    bake.crop = std::stoi(bake.period); // "2013-14": the crop of 2013, shipped in the year after
    bake.process = cell.at("mill") + cell.at("extraction_pct");
    bake.protein = std::stod(cell.at("protein_14mb"));
    bake.wet_gluten = std::stod(cell.at("wet_gluten"));
    bake.starch_damage = std::stod(cell.at("starch_damage"));
    bake.farinograph = std::stod(cell.at("farino_abs"));
    bake.bake = std::stod(cell.at("bake_abs"));
    return bake;
}

} // namespace

std::optional<std::vector<CgcBake>> cgc_bakes() {
    const std::filesystem::path folder(MELLOWBIN_REFERENCE_DATA);
    std::ifstream table(folder / "flour_cgc.csv");
    if (folder.empty() || !table) {
        WARN("skipped: no flour_cgc.csv in MELLOWBIN_REFERENCE_DATA (\"" MELLOWBIN_REFERENCE_DATA "\")");
        return {};
    }
    std::string line;
    std::getline(table, line);
    const auto heads = cells_of(line);
    std::vector<CgcBake> bakes;
    while (std::getline(table, line)) {
        const auto cells = cells_of(line);
        if (cells.size() != heads.size())
            throw std::runtime_error("the table of flours has a torn line: " + line);
        std::map<std::string, std::string> row;
        for (std::size_t i = 0; i < heads.size(); ++i)
            row[heads[i]] = cells[i];
        bakes.push_back(read(row));
    }
    return bakes;
}

double Regression::at(const std::vector<double>& row) const {
    double sum = coefficients.front();
    for (std::size_t i = 0; i < row.size(); ++i)
        sum += coefficients[i + 1] * row[i];
    return sum;
}

Regression regression(const std::vector<std::vector<double>>& rows, const std::vector<double>& answers) {
    const std::size_t n = rows.size(), k = rows.front().size() + 1;
    const std::unique_ptr<gsl_matrix, decltype(&gsl_matrix_free)> x(gsl_matrix_alloc(n, k), gsl_matrix_free);
    const std::unique_ptr<gsl_matrix, decltype(&gsl_matrix_free)> covariance(gsl_matrix_alloc(k, k),
                                                                             gsl_matrix_free);
    const std::unique_ptr<gsl_vector, decltype(&gsl_vector_free)> y(gsl_vector_alloc(n), gsl_vector_free);
    const std::unique_ptr<gsl_vector, decltype(&gsl_vector_free)> found(gsl_vector_alloc(k), gsl_vector_free);
    double mean = 0;
    for (std::size_t i = 0; i < n; ++i) {
        gsl_matrix_set(x.get(), i, 0, 1);
        for (std::size_t j = 1; j < k; ++j)
            gsl_matrix_set(x.get(), i, j, rows[i][j - 1]);
        gsl_vector_set(y.get(), i, answers[i]);
        mean += answers[i] / static_cast<double>(n);
    }
    const std::unique_ptr<gsl_multifit_linear_workspace, decltype(&gsl_multifit_linear_free)> work(
        gsl_multifit_linear_alloc(n, k), gsl_multifit_linear_free);
    double squares = 0, total = 0;
    gsl_multifit_linear(x.get(), y.get(), found.get(), covariance.get(), &squares, work.get());
    for (const double answer : answers)
        total += (answer - mean) * (answer - mean);
    Regression fit;
    for (std::size_t j = 0; j < k; ++j)
        fit.coefficients.push_back(gsl_vector_get(found.get(), j));
    fit.r_squared = 1 - squares / total;
    fit.residual_sd = std::sqrt(squares / static_cast<double>(n - k));
    return fit;
}

} // namespace mellowbin::testing
