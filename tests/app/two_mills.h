#pragma once

#include "app/acts/intake.h"
#include "app/acts/lots.h"
#include "app/acts/mills.h"
#include "app/acts/retests.h"
#include "app/models/plant.h"
#include "db/sqlite_connection.h"
#include "small_plant.h"
#include "support/catch.h"

#include <string>

namespace mellowbin::tests {

inline constexpr const char* two_mills = R"({
  "plant": "Two mills", "mills": ["Mill", "Ridge Mill"],
  "flours": [{"name": "Strong white", "class": "white",
              "windows": [{"property": "protein", "low": 11.5, "high": 14},
                          {"property": "falling_number", "low": 250}]},
             {"name": "Rye", "class": "wholemeal"}],
  "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 20}],
  "lines": [], "products": []})";

/// A plant on 25 November 2026 with two mills, whose lots come milled three days before.
struct TwoMills : SmallPlant {
    TwoMills() : SmallPlant(day_from_iso("2026-11-25"), two_mills) {}

    MillId mill(const std::string& name = "Mill") {
        for (const auto& row : app().plant().of(PlantKind::mill))
            if (row.name == name)
                return MillId{row.record.number};
        throw std::runtime_error("no mill " + name);
    }
    /// Empty figures were not reported.
    LotId came(const std::string& code, const std::string& day, const char* protein,
               const char* falling_number, const char* kg = "1000", const char* mill_name = "Mill") {
        auto lot = draft(code);
        lot.mill = mill_name;
        lot.delivered_on = day;
        lot.milled_on = iso(day_from_iso(day) - Days{3});
        lot.mass_kg = kg;
        lot.figures = {{Property::moisture, "14", "", "", ""},
                       {Property::protein, protein, "14 % moisture", "", ""},
                       {Property::falling_number, falling_number, "", "ISO 3093", ""}};
        done(app::TakeIn{{lot}});
        return this->lot(code);
    }
    void tested(LotId lot, const std::string& day, const char* falling_number) {
        RetestDraft draft;
        draft.taken_on = day;
        draft.figures = {{Property::falling_number, falling_number, "", "ISO 3093", ""}};
        done(app::LogRetest{lot, draft});
    }
    const app::MillRecordModel& record(const std::string& from = "", const std::string& to = "", int page = 0,
                                       const std::string& name = "Mill") {
        app().handle(app::ShowMillRecord{mill(name), from, to, page});
        INFO(said() << refusals());
        REQUIRE(app().plant().mill_record);
        return *app().plant().mill_record;
    }
    /// Of the book, as only what comes with other acts can write it.
    void write(std::string_view sql, Parameters parameters = {}) {
        SqliteConnection(book_path()).execute(sql, parameters);
    }
};

} // namespace mellowbin::tests
