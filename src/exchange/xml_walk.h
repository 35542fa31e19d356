#pragma once

#include "core/result.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

struct XmlAttribute {
    std::string_view name;  ///< without the prefix of its name space
    std::string_view value; ///< valid during the call
    bool has_prefix = false;
};
using XmlAttributes = std::vector<XmlAttribute>;

/// The value of a plain attribute, valid during the call; nothing where there is none.
std::optional<std::string_view> attribute(const XmlAttributes& attributes, std::string_view name);

/// Is told what stands in an XML document, in its order. Names come without the prefix of their name space.
class XmlListener {
public:
    virtual ~XmlListener() = default;
    virtual void begin(std::string_view element, const XmlAttributes& attributes) = 0;
    virtual void text(std::string_view characters) = 0; ///< may come in several pieces
    virtual void end(std::string_view element) = 0;
};

/// Walks through a document in UTF-8 by expat. Refused where it is no well-formed XML, ends before its first
/// element is closed, or is nested deeper than any spreadsheet; also where it has a document type, so that no
/// entity but the five of XML and characters by number is known, and none can grow. What the listener throws
/// flies through.
Result<Done> walk_xml(const std::string& document, XmlListener& listener);

} // namespace mellowbin::exchange
