#include "published/row_file.h"

#include <algorithm>
#include <charconv>
#include <fstream>
#include <stdexcept>
#include <string_view>

namespace mellowbin::published {
namespace {

std::string trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t\r");
    if (first == std::string_view::npos)
        return {};
    return std::string{text.substr(first, text.find_last_not_of(" \t\r") - first + 1)};
}

/// One line of RFC 4180; a quoted cell may not run over the line's end.
std::vector<std::string> cells(const std::string& line) {
    std::vector<std::string> found(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char c = line[i];
        if (quoted && c == '"' && i + 1 < line.size() && line[i + 1] == '"')
            found.back() += line[++i];
        else if (c == '"')
            quoted = !quoted;
        else if (c == ',' && !quoted)
            found.emplace_back();
        else
            found.back() += c;
    }
    if (quoted)
        throw std::runtime_error("an opened quote is not closed");
    for (auto& cell : found)
        cell = trimmed(cell);
    return found;
}

std::map<std::string, std::string> inputs_of(const std::string& cell) {
    std::map<std::string, std::string> inputs;
    std::string_view rest = cell;
    while (!rest.empty()) {
        const auto end = std::min(rest.find(';'), rest.size());
        const auto one = rest.substr(0, end);
        const auto equals = one.find('=');
        if (equals == std::string_view::npos)
            throw std::runtime_error("an input must read name=value, not \"" + std::string{one} + "\"");
        inputs[trimmed(one.substr(0, equals))] = trimmed(one.substr(equals + 1));
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    return inputs;
}

Row row_of(const std::string& line) {
    const auto columns = cells(line);
    if (columns.size() < 4)
        throw std::runtime_error("expected id,inputs,expected,tolerance[,note]");
    Row row{columns[0], inputs_of(columns[1]), columns[2], columns[3], ""};
    for (std::size_t i = 4; i < columns.size(); ++i) // a note may hold commas
        row.note += (i > 4 ? ", " : "") + columns[i];
    return row;
}

void add_to_head(std::map<std::string, std::string>& head, std::string& key, const std::string& words) {
    constexpr std::string_view keys[] = {"source", "place", "tolerance", "check", "status"};
    const auto colon = words.find(':');
    const auto name = colon == std::string::npos ? "" : words.substr(0, colon);
    if (std::find(std::begin(keys), std::end(keys), name) != std::end(keys)) {
        key = name;
        head[key] = trimmed(std::string_view{words}.substr(colon + 1));
    } else if (!key.empty() && !words.empty()) {
        head[key] += " " + words;
    }
}

} // namespace

bool Row::has(const std::string& key) const { return inputs.contains(key); }

const std::string& Row::text(const std::string& key) const {
    const auto found = inputs.find(key);
    if (found == inputs.end())
        throw std::runtime_error(id + ": the row has no input \"" + key + "\"");
    return found->second;
}

double Row::number(const std::string& key) const {
    const auto& words = text(key);
    double value = 0;
    const auto [end, fault] = std::from_chars(words.data(), words.data() + words.size(), value);
    if (fault != std::errc{} || end != words.data() + words.size())
        throw std::runtime_error(id + ": input \"" + key + "\" is not a number: " + words);
    return value;
}

double Row::number_or(const std::string& key, double otherwise) const {
    return has(key) ? number(key) : otherwise;
}

RowFile read_row_file(const std::filesystem::path& path) {
    std::ifstream file{path};
    if (!file)
        throw std::runtime_error("cannot read " + path.string());
    RowFile result{path.filename().string(), {}, {}};
    std::string line;
    std::string key;
    bool columns_seen = false;
    for (int number = 1; std::getline(file, line); ++number) {
        try {
            if (trimmed(line).empty())
                continue;
            if (line.front() == '#')
                add_to_head(result.head, key, trimmed(std::string_view{line}.substr(1)));
            else if (columns_seen)
                result.rows.push_back(row_of(line));
            else if (!(columns_seen = line.starts_with("id,inputs,expected,tolerance")))
                throw std::runtime_error("the columns must be id,inputs,expected,tolerance[,note]");
        } catch (const std::runtime_error& fault) {
            throw std::runtime_error(result.name + ":" + std::to_string(number) + ": " + fault.what());
        }
    }
    return result;
}

std::vector<RowFile> read_row_files(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> paths;
    for (const auto& entry : std::filesystem::directory_iterator{folder})
        if (entry.path().extension() == ".csv")
            paths.push_back(entry.path());
    std::sort(paths.begin(), paths.end());
    std::vector<RowFile> files;
    for (const auto& path : paths)
        files.push_back(read_row_file(path));
    return files;
}

} // namespace mellowbin::published
