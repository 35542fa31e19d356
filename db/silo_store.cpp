#include "db/silo_store.h"

#include "db/numbering.h"

namespace mellowbin {
namespace {

Refusal no_silo() { return {"Silo", "is no silo of the book", "Choose a place that is a silo"}; }

} // namespace

std::map<PlaceId, MixingZone> SiloStore::zones() const {
    std::map<PlaceId, MixingZone> zones;
    connection_.query("SELECT p.id, z.zone_g FROM place p LEFT JOIN silo_zone z ON z.id = "
                      "(SELECT MAX(n.id) FROM silo_zone n WHERE n.place_id = p.id) WHERE p.kind = 'silo'",
                      {}, [&](const Row& row) {
                          auto& zone = zones[row.id<PlaceId>(0)];
                          if (!row.is_null(1))
                              zone.mass = Grams{row.integer(1)};
                      });
    return zones;
}

bool SiloStore::is_silo(PlaceId place) const {
    bool is = false;
    connection_.query("SELECT 1 FROM place WHERE id = $1 AND kind = 'silo'", {place},
                      [&](const Row&) { is = true; });
    return is;
}

Result<Done> SiloStore::set(Change& change, PlaceId silo, const MixingZone& zone) {
    if (!is_silo(silo))
        return change.refuse(no_silo());
    auto& book = change.connection();
    book.execute("INSERT INTO silo_zone (id, place_id, zone_g, at, who) VALUES ($1, $2, $3, $4, $5)",
                 {next_number(book, "silo_zone"), silo, zone.mass, change.journal_line().at,
                  change.journal_line().who});
    change.touches(record_of(silo));
    return Done{};
}

std::map<PlaceId, Grams> SiloStore::capacities() const {
    std::map<PlaceId, Grams> capacities;
    connection_.query("SELECT place_id, capacity_g FROM silo_capacity c WHERE capacity_g IS NOT NULL AND "
                      "id = (SELECT MAX(n.id) FROM silo_capacity n WHERE n.place_id = c.place_id)",
                      {}, [&](const Row& row) { capacities[row.id<PlaceId>(0)] = Grams{row.integer(1)}; });
    return capacities;
}

std::optional<Grams> SiloStore::capacity(PlaceId silo) const {
    std::optional<Grams> capacity;
    connection_.query("SELECT capacity_g FROM silo_capacity WHERE place_id = $1 ORDER BY id DESC LIMIT 1",
                      {silo}, [&](const Row& row) {
                          if (!row.is_null(0))
                              capacity = Grams{row.integer(0)};
                      });
    return capacity;
}

Result<Done> SiloStore::set_capacity(Change& change, PlaceId silo, std::optional<Grams> capacity) {
    if (!is_silo(silo))
        return change.refuse(no_silo());
    auto& book = change.connection();
    book.execute("INSERT INTO silo_capacity (id, place_id, capacity_g, at, who) VALUES ($1, $2, $3, $4, $5)",
                 {next_number(book, "silo_capacity"), silo, capacity, change.journal_line().at,
                  change.journal_line().who});
    change.touches(record_of(silo));
    return Done{};
}

std::vector<PlaceCare> SiloStore::care_of(PlaceId silo, int most) const {
    std::vector<PlaceCare> care;
    connection_.query("SELECT place_id, kind, day, by_whom, note, at, who FROM place_care "
                      "WHERE place_id = $1 ORDER BY id DESC LIMIT $2",
                      {silo, most}, [&](const Row& row) {
                          care.push_back({row.id<PlaceId>(0), row.key(1, care_kind_from_key), row.day(2),
                                          row.words(3), row.words(4), row.instant(5), row.words(6)});
                      });
    return care;
}

Result<Done> SiloStore::note(Change& change, const PlaceCare& care) {
    if (!is_silo(care.place))
        return change.refuse(no_silo());
    auto& book = change.connection();
    book.execute("INSERT INTO place_care (id, place_id, kind, day, by_whom, note, at, who) "
                 "VALUES ($1, $2, $3, $4, $5, $6, $7, $8)",
                 {next_number(book, "place_care"), care.place, key_of(care.kind), care.day, care.by,
                  care.note, change.journal_line().at, change.journal_line().who});
    change.touches(record_of(care.place));
    return Done{};
}

} // namespace mellowbin
