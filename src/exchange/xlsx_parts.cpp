#include "exchange/xlsx_parts.h"

#include "core/typed_text.h"
#include "exchange/xml_walk.h"

#include <fmt/format.h>

#include <charconv>

namespace mellowbin::exchange {
namespace {

std::string attribute_or(const XmlAttributes& attributes, std::string_view name, std::string_view otherwise) {
    return std::string(attribute(attributes, name).value_or(otherwise));
}

int number_or(const XmlAttributes& attributes, std::string_view name, int otherwise) {
    const auto text = attribute(attributes, name).value_or("");
    int number = otherwise;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    return error == std::errc{} && end == text.data() + text.size() ? number : otherwise;
}

class Relations : public XmlListener {
public:
    void begin(std::string_view element, const XmlAttributes& attributes) override {
        if (element != "Relationship")
            return;
        const auto type = attribute_or(attributes, "Type", "");
        found[attribute_or(attributes, "Id", "")] = {type.substr(type.find_last_of('/') + 1),
                                                     attribute_or(attributes, "Target", "")};
    }
    void text(std::string_view) override {}
    void end(std::string_view) override {}

    std::map<std::string, XlsxRelation> found;
};

class Workbook : public XmlListener {
public:
    void begin(std::string_view element, const XmlAttributes& attributes) override {
        const auto is_true = [](std::string_view text) { return text == "1" || text == "true"; };
        if (element == "workbookPr" && is_true(attribute(attributes, "date1904").value_or("")))
            found.days = DayCount::from_1904;
        if (element != "sheet")
            return;
        XlsxSheetName sheet{cell_text(attribute_or(attributes, "name", "")), "",
                            attribute(attributes, "state").value_or("visible") != "visible"};
        for (const auto& one : attributes)
            if (one.has_prefix && one.name == "id")
                sheet.relation = one.value;
        found.sheets.push_back(std::move(sheet));
    }
    void text(std::string_view) override {}
    void end(std::string_view) override {}

    XlsxWorkbook found;
};

/// A text may stand in runs of several looks; how it is spoken (rPh) stands beside and is not read.
class Strings : public XmlListener {
public:
    explicit Strings(std::size_t most) : most_(most) {}
    struct TooMany {};

    void begin(std::string_view element, const XmlAttributes&) override {
        if (element == "si") {
            if (found.size() >= most_)
                throw TooMany{};
            found.emplace_back();
        }
        is_text_ = element == "t" && !is_spoken_;
        is_spoken_ = is_spoken_ || element == "rPh";
    }
    void text(std::string_view characters) override {
        if (is_text_ && !found.empty())
            found.back() += characters;
    }
    void end(std::string_view element) override {
        is_text_ = false;
        if (element == "rPh")
            is_spoken_ = false;
        if (element == "si" && !found.empty())
            found.back() = cell_text(found.back());
    }

    std::vector<std::string> found;

private:
    std::size_t most_;
    bool is_text_ = false, is_spoken_ = false;
};

class Formats : public XmlListener {
public:
    void begin(std::string_view element, const XmlAttributes& attributes) override {
        if (element == "cellXfs")
            is_of_cells_ = true;
        const int number = number_or(attributes, "numFmtId", 0);
        if (element == "numFmt")
            own_[number] = read_number_format(attribute_or(attributes, "formatCode", ""));
        if (element == "xf" && is_of_cells_)
            found.push_back(own_.contains(number) ? own_.at(number) : known_number_format(number));
    }
    void text(std::string_view) override {}
    void end(std::string_view element) override { is_of_cells_ = is_of_cells_ && element != "cellXfs"; }

    std::vector<NumberFormat> found;

private:
    std::map<int, NumberFormat> own_;
    bool is_of_cells_ = false;
};

} // namespace

std::string cell_text(std::string_view text) {
    std::string shown;
    for (std::size_t i = 0; i < text.size(); ++i) {
        // How a carriage return is written within a text; ECMA-376 part 1, 22.9.2.19.
        if (text.substr(i).starts_with("_x000D_")) {
            i += 6;
            continue;
        }
        const auto c = static_cast<unsigned char>(text[i]);
        shown += c < 0x20 ? ' ' : text[i];
    }
    return std::string(trimmed(shown));
}

Result<std::map<std::string, XlsxRelation>> read_xlsx_relations(const std::string& document) {
    Relations relations;
    if (const auto walked = walk_xml(document, relations); !walked)
        return walked.refusals();
    return std::move(relations.found);
}

Result<XlsxWorkbook> read_xlsx_workbook(const std::string& document) {
    Workbook workbook;
    if (const auto walked = walk_xml(document, workbook); !walked)
        return walked.refusals();
    return std::move(workbook.found);
}

Result<std::vector<std::string>> read_xlsx_strings(const std::string& document, std::size_t most) {
    Strings strings(most);
    try {
        if (const auto walked = walk_xml(document, strings); !walked)
            return walked.refusals();
    } catch (const Strings::TooMany&) {
        return Refusal{"", fmt::format("the file holds more than {} texts", most),
                       "Save only the sheet with the certificate as a new file"};
    }
    return std::move(strings.found);
}

Result<std::vector<NumberFormat>> read_xlsx_formats(const std::string& document) {
    Formats formats;
    if (const auto walked = walk_xml(document, formats); !walked)
        return walked.refusals();
    return std::move(formats.found);
}

} // namespace mellowbin::exchange
