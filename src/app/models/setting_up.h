#pragma once

#include "app/models/lots.h"
#include "core/plant_draft.h"
#include "core/plant_field.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// The way from an empty book to a first mixer's card. How far it has been gone is read from the book alone:
/// whatever was kept stays, whoever kept it.
namespace mellowbin::app {

enum class SetUpStep { plant, mill, flour, place, line, product, lot, release, run, card };
inline constexpr std::size_t set_up_steps = 10;
std::string_view name_of(SetUpStep step); ///< "Mill", "Release"
std::string_view said_of(SetUpStep step); ///< in a sentence: "a mill", "quality's word on the lot"
/// The kind of record that the step keeps; none: it keeps none of the plant's.
std::optional<PlantKind> kind_of(SetUpStep step);

struct SetUpRow {
    bool is_done = false;
    std::string words; ///< what the book has: "Weir Mill", "Weir Mill and 2 more"; empty: nothing yet
};

/// A record of the plant as it stands, to be looked at again.
struct SetUpRecord {
    PlantRef record;
    PlantDraft draft;
    friend bool operator==(const SetUpRecord&, const SetUpRecord&) = default;
};

/// The lot that the first run is to have.
struct SetUpLot {
    LotId id;
    std::string code;
    LotState state{};
    std::string reason;            ///< why it is on hold; empty otherwise
    std::vector<Finding> findings; ///< what quality looks at before it is released
    bool fails = false;            ///< its specification: to release it takes a reason
};

struct SetUpRun {
    RunId id;
    std::string code, product;
    Day day;
    bool has_flour = false;
};

struct SettingUpModel {
    std::array<SetUpRow, set_up_steps> steps;
    SetUpStep next = SetUpStep::plant; ///< the first that is not done; the card, once all are
    bool is_untouched = false;         ///< the book has nothing yet of a plant
    bool is_offered = false;           ///< a step before the card is still to do
    std::string plant, time_zone;
    std::array<std::optional<SetUpRecord>, 5> records; ///< by kind: the first that holds
    std::vector<std::string> mills, flours, places, lines, products, markets; ///< to choose from
    std::vector<std::string> bases;                                           ///< of a certificate's figures
    std::optional<SetUpLot> lot;
    std::optional<SetUpRun> run;

    [[nodiscard]] const SetUpRow& of(SetUpStep step) const { return steps[static_cast<std::size_t>(step)]; }
    [[nodiscard]] const std::optional<SetUpRecord>& of(PlantKind kind) const {
        return records[static_cast<std::size_t>(kind)];
    }
};

SettingUpModel make_setting_up(const Station& station);

} // namespace mellowbin::app
