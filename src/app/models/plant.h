#pragma once

#include "app/models/certificate.h"
#include "app/models/mill_record.h"
#include "app/models/mill_words.h"
#include "core/plant_draft.h"
#include "core/plant_field.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

/// What the plant is made of, to be looked at and changed.
namespace mellowbin::app {

struct PlantRow {
    PlantRef record;
    std::string name;
    std::string words; ///< "White, 5 properties", "Strong white, Canada"
    bool is_retired = false;
    std::string changed; ///< by another station, not looked at here yet: "04:12, Ines"
    PlantDraft draft;    ///< as it stands
};

/// A record that was kept here last, so that a form which began a new one goes on with it.
struct PlantKept {
    std::uint64_t count = 0;
    PlantRef record;
};

struct PlantModel {
    std::string name;                          ///< the plant's
    std::array<std::vector<PlantRow>, 5> rows; ///< by kind, those that hold before those retired
    std::vector<std::string> flours;           ///< to choose from
    std::vector<std::string> markets;          ///< keys
    std::vector<std::string> door_checks;      ///< as they hold, with the place of the temperature's limit
    bool has_own_checks = false;
    std::vector<MillWordRow> mill_words;  ///< on their certificates, of all mills
    std::uint64_t mill_words_changed = 0; ///< counts accepted changes of them
    std::vector<MeaningChoice> meanings;  ///< what a word may mean
    PlantKept kept;
    std::uint64_t made = 0;                     ///< changes with the rows
    std::optional<MillRecordModel> mill_record; ///< of the mill whose record is looked at
    std::uint64_t complaints_changed = 0; ///< counts accepted complaints and answers: views empty their forms

    [[nodiscard]] const std::vector<PlantRow>& of(PlantKind kind) const {
        return rows[static_cast<std::size_t>(kind)];
    }
    [[nodiscard]] const PlantRow* find(PlantRef wanted) const;
};

struct Book;
struct Station;

void make_plant(const Station& station, PlantModel& model);

/// The record as it stands in the book, or nothing.
std::optional<PlantDraft> plant_draft_in(const Book& book, PlantRef record);

} // namespace mellowbin::app
