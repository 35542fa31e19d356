#include "exchange/xml_walk.h"

#include "core/typed_text.h"
#include "exchange/text_encoding.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <expat.h>
#include <memory>
#include <type_traits>

namespace mellowbin::exchange {
namespace {

constexpr int deepest = 100;
constexpr std::size_t piece = std::size_t{1} << 20U;

/// Why the walk ended before the document did.
enum class Stopped { no, too_deep, has_document_type, by_listener };

/// What is handed through the parser, which is C: no exception may pass it.
struct Walk {
    XML_Parser parser = nullptr;
    XmlListener& listener;
    XmlAttributes attributes = {};
    int depth = 0;
    Stopped stopped = Stopped::no;
    std::exception_ptr thrown = {};

    void stop(Stopped why) {
        stopped = why;
        XML_StopParser(parser, XML_FALSE);
    }
    template <class Tell> void tell(Tell tell_listener) {
        if (stopped != Stopped::no)
            return;
        try {
            tell_listener();
        } catch (...) {
            thrown = std::current_exception();
            stop(Stopped::by_listener);
        }
    }
};

Walk& walk_of(void* user) { return *static_cast<Walk*>(user); }

std::string_view without_prefix(std::string_view name) {
    const auto colon = name.find(':');
    return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

void XMLCALL begin_element(void* user, const char* name, const char** pairs) {
    auto& walk = walk_of(user);
    if (++walk.depth > deepest) {
        walk.stop(Stopped::too_deep);
        return;
    }
    walk.tell([&] {
        walk.attributes.clear();
        for (; *pairs; pairs += 2) {
            const std::string_view whole = pairs[0];
            const auto plain = without_prefix(whole);
            walk.attributes.push_back({plain, pairs[1], plain.size() != whole.size()});
        }
        walk.listener.begin(without_prefix(name), walk.attributes);
    });
}

void XMLCALL end_element(void* user, const char* name) {
    auto& walk = walk_of(user);
    --walk.depth;
    walk.tell([&] { walk.listener.end(without_prefix(name)); });
}

void XMLCALL characters(void* user, const char* text, int length) {
    auto& walk = walk_of(user);
    walk.tell([&] { walk.listener.text({text, static_cast<std::size_t>(length)}); });
}

void XMLCALL document_type(void* user, const char*, const char*, const char*, int) {
    walk_of(user).stop(Stopped::has_document_type);
}

Refusal no_xml(std::string what) {
    return {"", "the file is torn: a part of it " + std::move(what), "Get it again, whole"};
}

Refusal why_stopped(const Walk& walk) {
    switch (walk.stopped) {
    case Stopped::too_deep:
        return no_xml("is nested deeper than any spreadsheet");
    case Stopped::has_document_type:
        return no_xml("has a document type, which no spreadsheet has");
    case Stopped::no:
    case Stopped::by_listener:
        break;
    }
    const auto code = XML_GetErrorCode(walk.parser);
    if (code == XML_ERROR_NO_ELEMENTS)
        return no_xml("ends before it is closed");
    return no_xml(fmt::format("is no XML (line {}: {})", XML_GetCurrentLineNumber(walk.parser),
                              excerpt(XML_ErrorString(code))));
}

/// False where it stopped.
bool parse(XML_Parser parser, std::string_view document) {
    do {
        const auto part = document.substr(0, piece);
        document.remove_prefix(part.size());
        if (XML_Parse(parser, part.data(), static_cast<int>(part.size()), document.empty() ? 1 : 0) !=
            XML_STATUS_OK)
            return false;
    } while (!document.empty());
    return true;
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
    const std::unique_ptr<std::remove_pointer_t<XML_Parser>, decltype(&XML_ParserFree)> parser(
        XML_ParserCreate("UTF-8"), &XML_ParserFree);
    if (!parser)
        throw std::bad_alloc();
    Walk walk{parser.get(), listener};
    XML_SetUserData(parser.get(), &walk);
    XML_SetElementHandler(parser.get(), begin_element, end_element);
    XML_SetCharacterDataHandler(parser.get(), characters);
    XML_SetStartDoctypeDeclHandler(parser.get(), document_type);
    const bool is_whole = parse(parser.get(), document);
    if (walk.thrown)
        std::rethrow_exception(walk.thrown);
    if (!is_whole)
        return why_stopped(walk);
    return Done{};
}

} // namespace mellowbin::exchange
