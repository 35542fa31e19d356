#pragma once

#include "planning/linear_program.h"

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <unistd.h>

namespace mellowbin::planning {

/// A second solver, run as a program of its own on the exported programme.
class Glpsol {
public:
    Glpsol() { std::filesystem::create_directories(folder_); }
    Glpsol(const Glpsol&) = delete;
    Glpsol& operator=(const Glpsol&) = delete;
    ~Glpsol() { std::filesystem::remove_all(folder_); }

    [[nodiscard]] static bool is_installed() { return std::system("glpsol --version > /dev/null 2>&1") == 0; }

    /// The optimum; nothing if it says that there is none.
    [[nodiscard]] std::optional<double> optimum(const LinearProgram& program) const {
        const auto lp = folder_ / "program.lp";
        const auto solution = folder_ / "solution.txt";
        std::ofstream(lp) << write_cplex_lp(program, "from a test");
        const std::string command = "glpsol --lp '" + lp.string() + "' -w '" + solution.string() + "' > '" +
                                    (folder_ / "log.txt").string() + "' 2>&1";
        if (std::system(command.c_str()) != 0)
            return std::nullopt;
        std::ifstream file(solution);
        for (std::string line; std::getline(file, line);) {
            // "s bas rows columns primal-status dual-status objective"
            std::istringstream words(line);
            std::string s, kind, primal, dual;
            int rows = 0, columns = 0;
            double objective = 0;
            if (words >> s >> kind >> rows >> columns >> primal >> dual >> objective && s == "s")
                return primal == "f" && dual == "f" ? std::optional(objective) : std::nullopt;
        }
        return std::nullopt;
    }

private:
    std::filesystem::path folder_ =
        std::filesystem::temp_directory_path() / ("mellowbin_glpsol_" + std::to_string(getpid()));
};

} // namespace mellowbin::planning
