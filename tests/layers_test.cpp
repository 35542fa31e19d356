#include "support/catch.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <regex>
#include <set>
#include <string>
#include <utility>
#include <vector>

// Which part may include which, and who alone may speak to a library. A new arrow here is a decision: it
// belongs in DEVELOPERS.md, too.
namespace {

namespace fs = std::filesystem;
using Parts = std::set<std::string>;

// Only arrows that somebody uses stand here; one that nobody uses any more goes.
const std::map<std::string, Parts> arrows{
    {"core", {}},
    {"aging", {"core"}},
    {"dough", {"core"}},
    {"planning", {"core"}},
    {"solver", {"planning"}},
    {"exchange", {"core", "aging", "dough", "planning"}},
    {"print", {"core", "exchange"}},
    {"db", {"core"}},
    // The rooms of the application, from the book up to the acts.
    {"app/book", {"core", "aging", "dough", "exchange", "print", "db"}},
    {"app/plan", {"core", "dough", "planning", "solver", "app/book"}},
    {"app/models", {"core", "aging", "dough", "exchange", "print", "db", "app/book", "app/plan"}},
    {"app/acts", {"core", "dough", "exchange", "print", "db", "app/book", "app/plan", "app/models"}},
    {"app", {"core", "db", "app/book", "app/models", "app/acts"}},
    {"app/demo", {"core", "db", "app/book", "app/models", "app/acts", "app"}},
    {"ui/widgets", {"core"}},
    // The screens: none knows another, but for the levers, which stand on two.
    {"ui/views/common", {"core", "app/models", "app/acts", "ui/widgets"}},
    {"ui/views/intake", {"core", "app/models", "app/acts", "ui/widgets", "ui/views/common"}},
    {"ui/views/lots", {"core", "app/models", "app/acts", "ui/widgets", "ui/views/common"}},
    {"ui/views/readiness", {"core", "app/models", "app/acts", "ui/widgets", "ui/views/common"}},
    {"ui/views/levers", {"app/models", "app/acts", "ui/widgets", "ui/views/common"}},
    {"ui/views/plan",
     {"app/plan", "app/models", "app/acts", "ui/widgets", "ui/views/common", "ui/views/levers"}},
    {"ui/views/mixer",
     {"core", "app/models", "app/acts", "ui/widgets", "ui/views/common", "ui/views/levers"}},
    {"ui/views/plant", {"core", "app/models", "app/acts", "ui/widgets", "ui/views/common"}},
    {"ui/views/trace", {"core", "app/models", "app/acts", "ui/widgets", "ui/views/common"}},
    {"ui/views/settings", {"core", "app/models", "app/acts", "ui/widgets", "ui/views/common"}},
    {"ui/views/welcome", {"core", "app/models", "app/acts", "ui/widgets", "ui/views/common"}},
    {"ui/views",
     {"core", "app/models", "app/acts", "ui/widgets", "ui/views/common", "ui/views/intake", "ui/views/lots",
      "ui/views/readiness", "ui/views/plan", "ui/views/mixer", "ui/views/plant", "ui/views/settings",
      "ui/views/trace", "ui/views/welcome"}},
    {"ui/shell",
     {"db", "app", "app/book", "app/models", "app/acts", "app/demo", "ui/widgets", "ui/views",
      "ui/views/welcome"}},
    // The program's main opens the window, so the command line knows the shell, and nothing else of the
    // screen.
    {"cli",
     {"core", "planning", "solver", "exchange", "db", "app", "app/book", "app/plan", "app/models", "app/acts",
      "app/demo", "ui/shell"}},
};

/// Headers of libraries, and the parts that may include them.
struct Library {
    const char* name;
    std::regex header;
    Parts parts;
};
const std::vector<Library> libraries{
    {"Dear ImGui", std::regex("imgui.*|imconfig.h"), {"ui/widgets", "ui/shell"}},
    {"GLFW and OpenGL", std::regex("(GLFW|GL|GLES\\d?|EGL)/.*"), {"ui/shell"}},
    {"PNG", std::regex("png.h"), {"ui/shell"}},
    {"zint", std::regex("zint.h"), {"exchange"}},
    {"pango and cairo", std::regex("pango/.*|cairo.*"), {"print"}},
    {"SQLite", std::regex("SQLiteCpp/.*|sqlite3.*"), {"db"}},
    {"PostgreSQL", std::regex("pqxx/.*|libpq.*"), {"db"}},
    {"Clp", std::regex("(coin/)?(Clp|Coin|Osi|Cbc).*"), {"solver"}},
    {"Eigen", std::regex("Eigen/.*"), {"aging", "dough"}},
    {"JSON", std::regex("nlohmann/.*"), {"exchange", "cli"}},
    {"CLI11", std::regex("CLI/.*"), {"cli"}},
    {"expat", std::regex("expat.*"), {"exchange"}},
    {"zlib", std::regex("zlib.h"), {"exchange"}},
    {"libxlsxwriter", std::regex("xlsxwriter.*"), {"exchange"}},
    {"processes", std::regex("spawn.h|sys/wait.h"), {"app/book", "ui/shell"}},
};

const Parts pure{"core", "aging", "dough", "planning"};
/// Files, consoles, clocks, threads: not in the pure parts. Polling a std::stop_token is no thread.
const std::regex impure_header("thread|future|mutex|shared_mutex|condition_variable|semaphore|barrier|latch|"
                               "iostream|fstream|cstdio|stdio.h|filesystem|ctime|time.h|unistd.h");
const std::regex
    impure_call("(::|\\b)now\\s*\\(|\\bgetenv\\s*\\(|\\bstd::(rand|random_device|time|system)\\s*\\(");
const std::regex
    sql_words("\"[^\"]*\\b(SELECT\\s|INSERT INTO|UPDATE [a-z_]+ SET|DELETE FROM|CREATE TABLE|PRAGMA |"
              "insert into |delete from |create table |pragma |select .* from [a-z_]+ where)");

/// "src/core/lot.h" is of the part core, "src/app/book/book.h" of app/book, "src/app/app.h" of app: the
/// innermost room that holds it.
std::optional<std::string> part_of(std::string path) {
    if (path.starts_with("src/"))
        path.erase(0, 4);
    std::optional<std::string> innermost;
    for (const auto& [part, allowed] : arrows)
        if (path.starts_with(part + "/") && (!innermost || part.size() > innermost->size()))
            innermost = part;
    return innermost;
}

std::vector<std::string> without_comments(const std::string& text) {
    static const std::regex block("/\\*[^*]*\\*+([^/*][^*]*\\*+)*/");
    std::vector<std::string> lines(1);
    for (const char c : std::regex_replace(text, block, "")) {
        if (c == '\n')
            lines.emplace_back();
        else
            lines.back() += c;
    }
    for (auto& line : lines)
        line.erase(std::min(line.find("//"), line.size()));
    return lines;
}

using Arrows = std::set<std::pair<std::string, std::string>>;

void check_own_include(const std::string& part, const std::string& header, std::vector<std::string>& faults,
                       Arrows* used) {
    const auto of = part_of(header);
    if (of && used)
        used->emplace(part, *of);
    if (!of)
        faults.push_back("\"" + header + "\" is no path from src/ or the root");
    else if (*of != part && !arrows.at(part).contains(*of))
        faults.push_back(part + " may not include " + *of + " (\"" + header + "\")");
}

void check_library_include(const std::string& part, const std::string& header,
                           std::vector<std::string>& faults) {
    for (const auto& library : libraries)
        if (std::regex_match(header, library.header) && !library.parts.contains(part))
            faults.push_back(part + " may not include " + library.name + " (<" + header + ">)");
    if (pure.contains(part) && std::regex_match(header, impure_header))
        faults.push_back(part + " is pure and may not include <" + header + ">");
}

/// Every broken rule of one file, in words; its arrows go into `used`.
std::vector<std::string> faults_of(const std::string& path, const std::string& text, Arrows* used = nullptr) {
    static const std::regex own("\\s*#\\s*include\\s*\"([^\"]+)\".*");
    static const std::regex library("\\s*#\\s*include\\s*<([^>]+)>.*");
    const auto part = part_of(path);
    if (!part)
        return {path + " belongs to no part"};
    std::vector<std::string> faults;
    std::smatch found;
    for (const auto& line : without_comments(text)) {
        if (std::regex_match(line, found, own))
            check_own_include(*part, found[1], faults, used);
        else if (std::regex_match(line, found, library))
            check_library_include(*part, found[1], faults);
        else if (pure.contains(*part) && std::regex_search(line, impure_call))
            faults.push_back(*part + " is pure and may not ask: " + line);
        else if (*part != "db" && std::regex_search(line, sql_words))
            faults.push_back(*part + " may not speak SQL: " + line);
    }
    return faults;
}

std::string text_of(const fs::path& path) {
    std::ifstream file(path);
    return {std::istreambuf_iterator<char>(file), {}};
}

const fs::path root = MELLOWBIN_SOURCE;

} // namespace

TEST_CASE("Arrows between the parts point down only, and each is used") {
    int files = 0;
    Parts seen;
    Arrows used;
    for (const char* folder : {"src", "db", "ui"}) {
        for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
            const auto extension = entry.path().extension();
            if (extension != ".h" && extension != ".cpp" && extension != ".in")
                continue;
            const auto path = fs::relative(entry.path(), root).generic_string();
            ++files;
            seen.insert(part_of(path).value_or(path));
            for (const auto& fault : faults_of(path, text_of(entry.path()), &used))
                FAIL_CHECK(path << ": " << fault);
        }
    }
    CHECK(files > 20);
    for (const auto& [part, allowed] : arrows) {
        if (!seen.contains(part))
            FAIL_CHECK(part << " has no file");
        for (const auto& other : allowed)
            if (!used.contains({part, other}))
                FAIL_CHECK(part << " needs " << other << " no more");
    }
}

TEST_CASE("The table of arrows has no circle") {
    // Each part's parts must all be ones that were settled before it.
    Parts settled;
    for (std::size_t before = arrows.size() + 1; before != settled.size();) {
        before = settled.size();
        for (const auto& [part, allowed] : arrows)
            if (std::includes(settled.begin(), settled.end(), allowed.begin(), allowed.end()))
                settled.insert(part);
    }
    CHECK(settled.size() == arrows.size());
}

TEST_CASE("A broken arrow is found") {
    const auto finds = [](const char* path, const char* text) { return faults_of(path, text).size() == 1; };
    CHECK(finds("src/core/lot.h", "#include \"db/connection.h\"\n"));
    CHECK(finds("src/aging/clock.cpp", "#include \"dough/ice.h\"\n"));
    CHECK(finds("src/app/book/book.h", "#include \"app/models/lots.h\"\n"));
    CHECK(finds("src/app/models/lots.cpp", "#include \"app/acts/lots.h\"\n"));
    CHECK(finds("ui/views/lots/view.cpp", "#include \"ui/views/plan/view.h\"\n"));
    CHECK(finds("ui/views/common/words.h", "#include \"ui/views/screens.h\"\n"));
    CHECK(finds("src/planning/plan.cpp", "  #  include \"solver/clp_solver.h\" // quick\n"));
    CHECK(finds("db/lot_store.cpp", "#include \"app/app.h\"\n"));
    CHECK(finds("src/app/app.h", "#include \"ui/views/screens.h\"\n"));
    CHECK(finds("ui/views/lots_view.cpp", "#include <imgui.h>\n"));
    CHECK(finds("ui/views/lots/view.cpp", "#include \"db/connection.h\"\n"));
    CHECK(finds("ui/widgets/table.cpp", "#include <GLFW/glfw3.h>\n"));
    CHECK(finds("src/app/app.cpp", "#include <SQLiteCpp/SQLiteCpp.h>\n"));
    CHECK(finds("src/app/app.cpp", "book.run(\"DELETE FROM lot\");\n"));
    CHECK(finds("src/planning/plan.cpp", "#include <coin/ClpSimplex.hpp>\n"));
    CHECK(finds("src/app/app.cpp", "#include <nlohmann/json.hpp>\n"));
    CHECK(finds("src/app/models/papers.cpp", "#include <cairo-pdf.h>\n"));
    CHECK(finds("src/core/lot.cpp", "#include <fstream>\n"));
    CHECK(finds("src/planning/plan.cpp", "#include <thread>\n"));
    CHECK(finds("src/aging/clock.cpp", "const auto t = std::chrono::system_clock::now();\n"));
    CHECK(finds("src/core/lot.cpp", "#include \"lot.h\"\n"));
    CHECK(finds("src/attic/lot.cpp", ""));
}

TEST_CASE("What is allowed is not taken for a fault") {
    const auto is_fine = [](const char* path, const char* text) { return faults_of(path, text).empty(); };
    CHECK(is_fine("src/planning/plan.cpp", "#include <stop_token>\n#include \"core/lot.h\"\n"));
    CHECK(is_fine("src/core/lot.cpp",
                  "// #include \"db/connection.h\"\n/* INSERT INTO\n#include <thread> */\n"));
    CHECK(is_fine("ui/views/lots_view.cpp", "ui::text(\"Select a lot from the list where it lies\");\n"));
    CHECK(is_fine("db/lot_store.cpp", "book.run(\"DELETE FROM lot\");\n#include <SQLiteCpp/SQLiteCpp.h>\n"));
    CHECK(is_fine("src/core/lot.cpp", "if (best_known(lots)) return; // asks now()\n"));
}

TEST_CASE("Nothing stands at the top level but what the project's map names") {
    const Parts permitted{"CMakeLists.txt",
                          "CMakePresets.json",
                          "README.md",
                          "DEVELOPERS.md",
                          "LICENSE",
                          "start.sh",
                          "test.sh",
                          "src",
                          "db",
                          "ui",
                          "tests",
                          "fixtures",
                          ".ci",
                          ".clang-format",
                          ".clang-tidy",
                          ".gitignore",
                          ".git",
                          ".build"};
    for (const auto& entry : fs::directory_iterator(root)) {
        const auto name = entry.path().filename().string();
        if (!permitted.contains(name))
            FAIL_CHECK(name << " stands at the top level");
    }
    for (const char* needed : {"CMakeLists.txt", "src", "db", "ui", "tests"})
        CHECK(fs::exists(root / needed));
}
