// No form is forgotten: the headers of the screens are held against what keeps their forms.

#include "support/catch.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>

namespace {

std::string text_of(const std::filesystem::path& path) {
    std::ifstream in(path);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// Structs of a header that ask something of the application, or are a Form.
std::set<std::string> forms_in(const std::filesystem::path& header) {
    static const std::regex begins(R"(struct (\w+).*)"), form(R"((?:struct|using) (\w+)\s*[:=]\s*Form<.*)");
    std::set<std::string> forms;
    std::istringstream lines(text_of(header));
    std::string current;
    std::smatch match;
    for (std::string line; std::getline(lines, line);) {
        if (std::regex_match(line, match, form))
            forms.insert(match[1]);
        else if (std::regex_match(line, match, begins))
            current = match[1];
        else if (line.starts_with("    Asked "))
            forms.insert(current);
    }
    return forms;
}

} // namespace

TEST_CASE("Every form of the screens is known to what keeps it") {
    namespace fs = std::filesystem;
    // A form by its name, or by that of the member which its screen calls it.
    const std::map<std::string, std::string> called{
        {"RetestForm", "RetestDraft"}, {"BakeForm", "bakes.form"},      {"GivenForm", "view.given"},
        {"ResultForm", "view.result"}, {"KeepingForm", "keeping.form"}, {"LimitForm", "limit_form"},
        {"BagScan", "view.scan"},      {"DoughsPage", "doughs.drafts"}, {"PlantChoices", "choices.typed"}};
    // Nothing is typed there, or only which days are shown.
    const std::set<std::string> typeless{"LeversPage", "PlantStanding", "MillRecordView"};
    std::size_t found = 0;
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(MELLOWBIN_SOURCE) / "ui/views")) {
        if (entry.path().extension() != ".h" || entry.path().filename() == "form.h")
            continue;
        const auto folder = entry.path().parent_path();
        // Forms of common/ are listed there, for all the screens that show them.
        const auto keeps = folder.filename() == "common"
                               ? text_of(folder / "keep.h") + text_of(folder / "keep_take_back.h")
                               : text_of(folder / "kept.cpp") + text_of(folder / "kept.h");
        for (const auto& name : forms_in(entry.path())) {
            ++found;
            const auto by = called.find(name);
            if (!typeless.contains(name) &&
                keeps.find(by == called.end() ? name : by->second) == std::string::npos)
                FAIL_CHECK(name << " of " << entry.path() << " is not kept");
        }
    }
    CHECK(found > 18);
}
