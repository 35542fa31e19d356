#pragma once

#include "core/day.h"

#include <chrono>
#include <initializer_list>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What happened to flour, as other companies' programs read it: EPCIS 2.0 in JSON-LD with the words of
/// CBV 2.0 (GS1; ISO/IEC 19987 and 19988, from memory).
namespace mellowbin::exchange {

/// kg of a class: a lot, a dough.
struct EventQuantity {
    std::string epc_class;    ///< URI
    std::optional<double> kg; ///< nothing: not known
};

struct SupplyEvent {
    enum class Kind { receiving, storing, transforming, dispatching };
    Kind kind{};
    std::string id; ///< URI
    Instant at;
    std::chrono::minutes zone{0};          ///< of the plant's clock then, off UTC
    std::vector<std::string> pallets;      ///< URIs; of what is received
    std::vector<EventQuantity> quantities; ///< what is received or stored; what goes into a transformation
    std::vector<EventQuantity> outputs;    ///< of a transformation
    std::string place;                     ///< URI; empty: not known
    std::string receiver{};                ///< URI of who gets what is dispatched
    std::string despatch_advice, order;    ///< URIs of the papers; empty: none
    std::optional<Instant>
        declared_wrong{}; ///< it is the declaration that the event of this id did not occur
};

/// Writes the document to a stream, an event at a time.
class SupplyEventWriter {
public:
    SupplyEventWriter(std::ostream& out, Instant made_at);
    void event(const SupplyEvent& event);
    void end();

private:
    std::ostream& out_;
    bool is_first_ = true;
};

/// A lot by its GTIN: https://id.gs1.org/01/09521234543213/10/FL-240917A. Nothing where the GTIN is none (14
/// digits with their check digit) or a label could not bear the lot number (1 to 20 characters of GS1's set
/// 82).
std::optional<std::string> lot_by_gtin(std::string_view gtin, std::string_view lot);
/// A pallet by its SSCC.
std::string pallet_uri(std::string_view sscc);
/// A URI of the plant's own, where GS1 gave no key: "urn:x-mellowbin:<plant>:lot:Weir%20Mill:W24-118".
std::string own_uri(std::string_view plant, std::initializer_list<std::string_view> parts);
/// A UUID that always is the same for the same words (RFC 9562, version 8), as a URI.
std::string uuid_uri(std::string_view words);

} // namespace mellowbin::exchange
