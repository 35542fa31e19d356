#pragma once

#include <functional>
#include <map>
#include <string>
#include <variant>

namespace mellowbin::published {

/// One published figure: what goes in, what the source says comes out, and how near we must come.
struct Row {
    std::string id;
    std::map<std::string, std::string> inputs; ///< from "moisture=14.5;temperature=25"
    std::string expected;
    std::string tolerance; ///< a number (absolute), or "exact" for words (then the evaluator answers words)
    std::string note;

    [[nodiscard]] bool has(const std::string& key) const;
    /// The input as written. Throws std::runtime_error, naming the row, when it is not there.
    [[nodiscard]] const std::string& text(const std::string& key) const;
    /// The input as a number, decimal point only. Throws likewise.
    [[nodiscard]] double number(const std::string& key) const;
    [[nodiscard]] double number_or(const std::string& key, double otherwise) const;
};

/// A figure, or words where the source gives words ("refused").
using Answer = std::variant<double, std::string>;
/// What our code says to the row's inputs.
using Evaluator = std::function<Answer(const Row&)>;

/// Ties a file's `# check:` head to the code under test. One static object per kind of check, in
/// tests/published/<area>_rows.cpp:
///     const Registered drift{"flour moisture drift", [](const Row& row) -> Answer { ... }};
struct Registered {
    Registered(const std::string& check, Evaluator evaluate);
};

/// All evaluators by their kind of check.
const std::map<std::string, Evaluator>& evaluators();

} // namespace mellowbin::published
