#pragma once

#include "core/ingredient.h"
#include "core/limit.h"
#include "core/plant.h"
#include "core/plant_field.h"
#include "core/result.h"

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// A record of the plant as it is typed, field by field, and back.
namespace mellowbin {

/// A line of a specification as typed: at 14 % moisture where the property has a basis.
struct WindowDraft {
    std::string property; ///< name or key
    std::string low, high, method;
    friend bool operator==(const WindowDraft&, const WindowDraft&) = default;
};

struct ClimateStepDraft {
    std::string from;        ///< a day, ISO
    std::string temperature; ///< °C
    friend bool operator==(const ClimateStepDraft&, const ClimateStepDraft&) = default;
};

/// A record of any kind as typed; °C, kg and the other units of plant_fields().
struct PlantDraft {
    PlantKind kind{};
    std::map<std::string, std::string, std::less<>>
        texts;                                ///< by key of the field; what is not there is empty
    std::vector<WindowDraft> windows;         ///< of a flour or a product
    std::vector<WindowDraft> second_windows;  ///< of a product's second flour
    std::vector<ClimateStepDraft> climate;    ///< of a place
    std::vector<IngredientDraft> ingredients; ///< of a product

    [[nodiscard]] const std::string& text(std::string_view key) const;
    friend bool operator==(const PlantDraft&, const PlantDraft&) = default;
};

/// A new record: every field as it is where nobody says otherwise.
PlantDraft blank_draft(PlantKind kind);

// As it stands: read again, it is the same record.
PlantDraft draft_of(const Mill& mill);
PlantDraft draft_of(const Flour& flour);
PlantDraft draft_of(const Place& place);
PlantDraft draft_of(const Line& line);
PlantDraft draft_of(const Product& product, std::span<const Flour> flours);

// What was typed, or every reason why it cannot be, each under its field's label; an empty field is as if
// nobody had said anything of it. Lines of a list without anything typed are none. The record has no number.
Result<Mill> accept_mill(const PlantDraft& draft);
Result<Flour> accept_flour(const PlantDraft& draft);
Result<Place> accept_place(const PlantDraft& draft);
/// Refused too: water that the chiller cools above what comes from the tap.
Result<Line> accept_line(const PlantDraft& draft);
/// The flours by name; no markets: its market is not looked up.
Result<Product> accept_product(const PlantDraft& draft, std::span<const Flour> flours,
                               std::span<const Market> markets);

} // namespace mellowbin
