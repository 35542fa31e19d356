#include "exchange/xml_walk.h"

#include "core/typed_text.h"
#include "exchange/text_encoding.h"

#include <fmt/format.h>

// The parser asserts what a torn document breaks, and behind each assertion refuses it by an exception, too:
// foreign bytes must never end the program.
#define NDEBUG
#include <cassert>
#include <orcus/sax_parser.hpp>
#undef NDEBUG
#include <cassert>

namespace mellowbin::exchange {
namespace {

constexpr std::size_t deepest = 100;

struct TooDeep {};

/// Turns what the parser tells, attributes first, into the listener's calls, and sees to it that what is
/// opened is closed.
class Teller {
public:
    explicit Teller(XmlListener& listener) : listener_(listener) {}

    void doctype(const orcus::sax::doctype_declaration&) {}
    void start_declaration(std::string_view) {}
    void end_declaration(std::string_view) { forget_attributes(); }

    void start_element(const orcus::sax::parser_element& element) {
        if (open_.size() >= deepest)
            throw TooDeep{};
        open_.push_back(element.name);
        told_.clear();
        for (const auto& kept : kept_)
            told_.push_back({kept.name, kept.value, kept.has_prefix});
        listener_.begin(element.name, told_);
        forget_attributes();
    }

    void end_element(const orcus::sax::parser_element& element) {
        if (open_.empty() || open_.back() != element.name)
            throw orcus::sax::malformed_xml_error("another element is closed than was opened",
                                                  element.begin_pos);
        open_.pop_back();
        listener_.end(element.name);
    }

    void characters(std::string_view text, bool) { listener_.text(text); }

    void attribute(const orcus::sax::parser_attribute& attribute) {
        kept_.push_back({attribute.name, std::string(attribute.value), !attribute.ns.empty()});
    }

    [[nodiscard]] bool is_closed() const { return open_.empty() && has_begun_; }

private:
    struct Kept {
        std::string_view name;
        std::string value; // the parser's own may lie in a buffer that the next one takes
        bool has_prefix = false;
    };
    void forget_attributes() {
        kept_.clear();
        has_begun_ = true;
    }
    XmlListener& listener_;
    std::vector<std::string_view> open_;
    std::vector<Kept> kept_;
    XmlAttributes told_;
    bool has_begun_ = false;
};

Refusal no_xml(std::string what) {
    return {"", "the file is torn: a part of it " + std::move(what), "Get it again, whole"};
}

} // namespace

std::optional<std::string_view> attribute(const XmlAttributes& attributes, std::string_view name) {
    for (const auto& attribute : attributes)
        if (!attribute.has_prefix && attribute.name == name)
            return attribute.value;
    return {};
}

Result<Done> walk_xml(const std::string& document, XmlListener& listener) {
    if (!is_utf8(document))
        return no_xml("is not in UTF-8");
    Teller teller(listener);
    try {
        orcus::sax_parser<Teller> parser(document.data(), document.size(), teller);
        parser.parse();
    } catch (const orcus::sax::malformed_xml_error& error) {
        return no_xml(fmt::format("is no XML ({})", excerpt(error.what())));
    } catch (const TooDeep&) {
        return no_xml("is nested deeper than any spreadsheet");
    }
    if (!teller.is_closed())
        return no_xml("ends before it is closed");
    return Done{};
}

} // namespace mellowbin::exchange
