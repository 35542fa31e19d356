#include "db/silo_store.h"

#include "db/numbering.h"

namespace mellowbin {

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

Result<Done> SiloStore::set(Change& change, PlaceId silo, const MixingZone& zone) {
    if (!zones().contains(silo))
        return change.refuse({"Silo", "is no silo of the book", "Choose a place that is a silo"});
    auto& book = change.connection();
    book.execute("INSERT INTO silo_zone (id, place_id, zone_g, at, who) VALUES ($1, $2, $3, $4, $5)",
                 {next_number(book, "silo_zone"), silo, zone.mass, change.journal_line().at,
                  change.journal_line().who});
    change.touches(record_of(silo));
    return Done{};
}

} // namespace mellowbin
