#pragma once

#include <nlohmann/json.hpp>

#include <algorithm>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace mellowbin::testing {

/// What is wrong with an EPCIS 2.0 document of object and transformation events, by the rules of its JSON
/// schema as far as such events meet them (ref.gs1.org/standards/epcis/2.0.1/epcis-json-schema.json, which
/// may not be kept here: the rules are written down from notes taken with it at hand). Empty: nothing.
class EpcisRules {
public:
    static std::vector<std::string> faults_of(const nlohmann::json& document) {
        EpcisRules rules;
        rules.document(document);
        return rules.faults_;
    }

private:
    using json = nlohmann::json;
    void must(bool holds, const std::string& what) {
        if (!holds)
            faults_.push_back(what);
    }
    static bool matches(const json& value, const char* pattern) {
        return value.is_string() && std::regex_match(value.get<std::string>(), std::regex(pattern));
    }
    static constexpr const char* uri = "[A-Za-z][A-Za-z0-9+.-]*:[!-~]+";
    static constexpr const char* instant =
        "\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}:\\d{2}(\\.\\d+)?(Z|[+-]\\d{2}:\\d{2})";
    static constexpr const char* offset = "[+-]((0\\d|1[0-3]):[0-5]\\d|14:00)";

    void document(const json& d) {
        for (const char* needed : {"@context", "type", "schemaVersion", "creationDate", "epcisBody"})
            must(d.contains(needed), std::string("document lacks ") + needed);
        if (!faults_.empty())
            return;
        must(d["type"] == "EPCISDocument", "document type");
        must(matches(d["creationDate"], instant), "creationDate");
        must(d["epcisBody"].contains("eventList") && d["epcisBody"]["eventList"].is_array(), "eventList");
        if (faults_.empty())
            for (const auto& one : d["epcisBody"]["eventList"])
                event(one);
    }
    void event(const json& e) {
        for (const char* needed : {"type", "eventTime", "eventTimeZoneOffset"})
            must(e.contains(needed), std::string("event lacks ") + needed);
        must(matches(e.value("eventTime", json()), instant), "eventTime");
        must(matches(e.value("eventTimeZoneOffset", json()), offset), "eventTimeZoneOffset");
        if (e.contains("eventID"))
            must(matches(e["eventID"], uri), "eventID");
        words(e);
        if (e.value("type", "") == "ObjectEvent")
            object(e);
        else if (e.value("type", "") == "TransformationEvent")
            transformation(e);
        else
            must(false, "event type");
        for (const char* list : {"quantityList", "inputQuantityList", "outputQuantityList"})
            for (const auto& one : e.value(list, json::array()))
                quantity(one);
        for (const auto& one : e.value("epcList", json::array()))
            must(matches(one, uri), "epcList");
        for (const char* place : {"readPoint", "bizLocation"})
            if (e.contains(place))
                must(e[place].is_object() && matches(e[place].value("id", json()), uri), place);
        for (const auto& one : e.value("bizTransactionList", json::array()))
            must(matches(one.value("bizTransaction", json()), uri), "bizTransaction");
        if (e.contains("errorDeclaration"))
            declaration(e["errorDeclaration"]);
    }
    void words(const json& e) {
        static const std::set<std::string> steps{"receiving",
                                                 "accepting",
                                                 "inspecting",
                                                 "sampling",
                                                 "storing",
                                                 "stocking",
                                                 "holding",
                                                 "picking",
                                                 "dispensing",
                                                 "commissioning",
                                                 "creating_class_instance",
                                                 "decommissioning",
                                                 "shipping",
                                                 "destroying"};
        static const std::set<std::string> dispositions{
            "in_progress", "conformant", "non_conformant", "reserved", "available",
            "unavailable", "expired",    "recalled",       "damaged",  "destroyed"};
        if (e.contains("bizStep"))
            must(e["bizStep"].is_string() && steps.contains(e["bizStep"]), "bizStep");
        if (e.contains("disposition"))
            must(e["disposition"].is_string() && dispositions.contains(e["disposition"]), "disposition");
    }
    void only(const json& e, std::set<std::string> more) {
        for (const char* common :
             {"type", "eventID", "eventTime", "eventTimeZoneOffset", "bizStep", "disposition", "readPoint",
              "bizLocation", "bizTransactionList", "errorDeclaration", "ilmd"})
            more.insert(common);
        for (const auto& [name, value] : e.items())
            must(more.contains(name), "bare property " + name);
    }
    void object(const json& e) {
        const auto action = e.value("action", json());
        must(action == "OBSERVE" || action == "ADD" || action == "DELETE", "action");
        must(!e.contains("ilmd") || action == "ADD", "ilmd");
        must(!e.value("epcList", json::array()).empty() || !e.value("quantityList", json::array()).empty(),
             "neither epcList nor quantityList");
        // Sources and destinations with their three kinds are from memory.
        for (const auto& one : e.value("destinationList", json::array())) {
            static const std::set<std::string> kinds{"owning_party", "possessing_party", "location"};
            must(one.is_object() && kinds.contains(one.value("type", "")) &&
                     matches(one.value("destination", json()), uri),
                 "destinationList");
        }
        only(e, {"action", "epcList", "quantityList", "destinationList"});
    }
    void transformation(const json& e) {
        const auto inputs = e.value("inputQuantityList", json::array()),
                   outputs = e.value("outputQuantityList", json::array());
        must(!e.contains("action"), "action of a transformation");
        must(e.contains("transformationID") || (!inputs.empty() && !outputs.empty()),
             "neither both sides nor an id");
        only(e, {"inputQuantityList", "outputQuantityList", "transformationID"});
    }
    void quantity(const json& q) {
        must(matches(q.value("epcClass", json()), uri), "epcClass");
        must(!q.contains("quantity") || q["quantity"].is_number(), "quantity");
        must(!q.contains("uom") || matches(q["uom"], "[A-Z0-9]{2,3}"), "uom");
    }
    void declaration(const json& d) {
        must(matches(d.value("declarationTime", json()), instant), "declarationTime");
        must(!d.contains("reason") || d["reason"] == "did_not_occur" || d["reason"] == "incorrect_data",
             "reason");
    }

    std::vector<std::string> faults_;
};

} // namespace mellowbin::testing
