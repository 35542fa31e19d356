#include "exchange/epcis.h"

#include "core/fingerprint.h"
#include "core/pallet.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <ostream>

namespace mellowbin::exchange {
namespace {

using nlohmann::json;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_plain(char c) {
    return is_digit(c) || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
           std::string_view("-._~").find(c) < 4;
}

/// RFC 3986.
std::string percent_encoded(std::string_view text) {
    std::string words;
    for (const char c : text)
        words += is_plain(c) ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
    return words;
}

/// CSET 82 of the GS1 General Specifications: what a lot number on a label may have.
bool is_of_set_82(std::string_view text) {
    constexpr std::string_view marks = "!\"%&'()*+,-./:;<=>?_";
    return std::all_of(text.begin(), text.end(), [&](char c) {
        return is_digit(c) || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
               marks.find(c) < marks.size();
    });
}

std::string offset_in_words(std::chrono::minutes offset) {
    const auto minutes = std::abs(offset.count());
    return fmt::format("{}{:02}:{:02}", offset.count() < 0 ? '-' : '+', minutes / 60, minutes % 60);
}

json list_of(const std::vector<EventQuantity>& quantities) {
    json list = json::array();
    for (const auto& quantity : quantities) {
        json one{{"epcClass", quantity.epc_class}};
        if (quantity.kg) {
            one["quantity"] = *quantity.kg;
            one["uom"] = "KGM"; // kilogram: UN/CEFACT Recommendation 20
        }
        list.push_back(std::move(one));
    }
    return list;
}

/// CBV's word for the step.
std::string_view step_of(SupplyEvent::Kind kind) {
    switch (kind) {
    case SupplyEvent::Kind::receiving:
        return "receiving";
    case SupplyEvent::Kind::storing:
        return "storing";
    case SupplyEvent::Kind::dispatching:
        return "shipping";
    case SupplyEvent::Kind::transforming:
        break;
    }
    return "commissioning";
}

void add_transactions(const SupplyEvent& event, json& written) {
    json list = json::array();
    if (!event.order.empty())
        list.push_back({{"type", "po"}, {"bizTransaction", event.order}});
    if (!event.despatch_advice.empty())
        list.push_back({{"type", "desadv"}, {"bizTransaction", event.despatch_advice}});
    if (!list.empty())
        written["bizTransactionList"] = std::move(list);
}

json as_json(const SupplyEvent& event) {
    const bool is_transformation = event.kind == SupplyEvent::Kind::transforming;
    json written{{"type", is_transformation ? "TransformationEvent" : "ObjectEvent"},
                 {"eventID", event.id},
                 {"eventTime", iso(event.at)},
                 {"eventTimeZoneOffset", offset_in_words(event.zone)},
                 {"bizStep", step_of(event.kind)},
                 {"disposition", "in_progress"}};
    if (is_transformation) {
        written["inputQuantityList"] = list_of(event.quantities);
        written["outputQuantityList"] = list_of(event.outputs);
    } else {
        written["action"] = "OBSERVE";
        written["quantityList"] = list_of(event.quantities);
        if (!event.pallets.empty())
            written["epcList"] = event.pallets;
    }
    if (!event.place.empty()) {
        written["readPoint"] = {{"id", event.place}};
        if (!is_transformation && event.kind != SupplyEvent::Kind::dispatching)
            written["bizLocation"] = {{"id", event.place}};
    }
    if (!event.receiver.empty()) // CBV's word for who has it then
        written["destinationList"] =
            json::array({{{"type", "possessing_party"}, {"destination", event.receiver}}});
    add_transactions(event, written);
    if (event.declared_wrong)
        written["errorDeclaration"] = {{"declarationTime", iso(*event.declared_wrong)},
                                       {"reason", "did_not_occur"}};
    return written;
}

} // namespace

SupplyEventWriter::SupplyEventWriter(std::ostream& out, Instant made_at) : out_(out) {
    out_ << "{\n\"@context\": \"https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld\",\n"
            "\"type\": \"EPCISDocument\",\n\"schemaVersion\": \"2.0\",\n\"creationDate\": \""
         << iso(made_at) << "\",\n\"epcisBody\": {\"eventList\": [";
}

void SupplyEventWriter::event(const SupplyEvent& event) {
    out_ << (is_first_ ? "\n" : ",\n")
         << as_json(event).dump(-1, ' ', false,
                                json::error_handler_t::replace); // its texts are URIs: all ASCII
    is_first_ = false;
}

void SupplyEventWriter::end() { out_ << "\n]}\n}\n"; }

std::optional<std::string> lot_by_gtin(std::string_view gtin, std::string_view lot) {
    const bool is_gtin = gtin.size() == 14 && std::all_of(gtin.begin(), gtin.end(), is_digit) &&
                         gs1_check_digit(gtin.substr(0, 13)) == gtin[13];
    if (!is_gtin || lot.empty() || lot.size() > 20 || !is_of_set_82(lot))
        return {};
    return fmt::format("https://id.gs1.org/01/{}/10/{}", gtin, percent_encoded(lot));
}

std::string pallet_uri(std::string_view sscc) { return fmt::format("https://id.gs1.org/00/{}", sscc); }

std::string own_uri(std::string_view plant, std::initializer_list<std::string_view> parts) {
    auto uri = fmt::format("urn:x-mellowbin:{}", percent_encoded(plant));
    for (const auto part : parts)
        uri += ":" + percent_encoded(part);
    return uri;
}

std::string uuid_uri(std::string_view words) {
    const auto high = fingerprint(words);
    const auto low = fingerprint(std::string(words) + "\nmellowbin");
    return fmt::format("urn:uuid:{:08x}-{:04x}-8{:03x}-{:04x}-{:012x}", high >> 32, (high >> 16) & 0xffff,
                       high & 0xfff, (low >> 48 & 0x3fff) | 0x8000, low & 0xffff'ffff'ffff);
}

} // namespace mellowbin::exchange
