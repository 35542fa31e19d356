#include "book_support.h"

#include <fmt/format.h>

#include <cstdlib>
#include <fstream>
#include <iostream>
#include <sstream>
#include <sys/wait.h>
#include <unistd.h>

namespace mellowbin {

JournalLine line(std::string words) {
    return {0, noon, "Ada Example", "take_in_lot", "lot W24-118", std::move(words), ""};
}

SmallPlant add_small_plant(Connection& connection) {
    PlantStore store(connection);
    Change change(connection, line("The plant was set up"));
    SmallPlant plant;
    plant.mill = *store.save(change, Mill{{}, "Upper mill"});
    plant.flour = *store.save(change, Flour{{}, "Bread flour", FlourClass::white, {}});
    plant.bay =
        *store.save(change, Place{{}, "Bay 1", PlaceKind::bay, Air::breathable_bag, Celsius{18}, {}, {}});
    plant.silo =
        *store.save(change, Place{{}, "Silo 1", PlaceKind::silo, Air::moved_silo, Celsius{20}, {}, {}});
    Product product;
    product.name = "Pan bread";
    product.flour = plant.flour;
    product.market = "EU";
    plant.product = *store.save(change, product);
    Line mixer_line;
    mixer_line.name = "Line 1";
    plant.line = *store.save(change, mixer_line);
    change.commit();
    return plant;
}

Basis basis_for(Property property) { return traits(property).has_basis ? Basis::at(Moisture{14}) : Basis{}; }

Lot good_lot(const SmallPlant& plant, std::string code) {
    Lot lot;
    lot.code = std::move(code);
    lot.mill = plant.mill;
    lot.flour = plant.flour;
    lot.received_into = plant.bay;
    lot.milled_on = date::sys_days{2026_y / 11 / 16};
    lot.delivered_on = date::sys_days{2026_y / 11 / 24};
    lot.delivery_note = "DN 4711";
    lot.received = Grams{25'000'000};
    lot.bag = Grams{25'000};
    lot.state_by = "Ada Example";
    lot.state_at = noon;
    lot.certificate.set({Property::moisture, 14.2, {}, "ISO 712-1", wheat_nitrogen_factor});
    lot.certificate.set({Property::protein, 11.85, Basis::at(Moisture{14}), "", wheat_nitrogen_factor});
    lot.certificate.set({Property::falling_number, 320, {}, "ISO 3093", wheat_nitrogen_factor});
    return lot;
}

Delivered delivered(const SmallPlant& plant, std::string code) {
    Delivered d{good_lot(plant, std::move(code)), {}};
    d.receipt.kind = MovementKind::receipt;
    d.receipt.to = plant.bay;
    d.receipt.mass = d.lot.received;
    d.receipt.at = noon;
    d.receipt.who = "Ada Example";
    return d;
}

LotId take_in(Connection& connection, const SmallPlant& plant, std::string code) {
    Change change(connection, line("Lot " + code + " was taken in"));
    const auto id = LotStore(connection).take_in(change, delivered(plant, code));
    change.commit();
    return id.value();
}

LotId take_in_released(Connection& connection, const SmallPlant& plant, std::string code) {
    const LotId lot = take_in(connection, plant, std::move(code));
    Change change(connection, line("The lot was released"));
    REQUIRE(LotStore(connection).set_state(change, lot, LotState::released, ""));
    change.commit();
    return lot;
}

Run good_run(const SmallPlant& plant, std::string code) {
    return {{}, std::move(code), plant.product, plant.line, date::sys_days{2026_y / 11 / 26}, 1,
            4,  Grams{400'000}};
}

RunId add_run(Connection& connection, const Run& run) {
    Change change(connection, line("Run " + run.code + " was entered"));
    const auto id = RunStore(connection).save(change, run);
    change.commit();
    return id.value();
}

BookError fault_of(const std::function<void()>& act) {
    try {
        act();
    } catch (const BookError& error) {
        return error;
    }
    FAIL("no BookError was thrown");
    throw std::logic_error("not reached");
}

std::int64_t count_of(Connection& connection, std::string_view table) {
    std::int64_t count = 0;
    connection.query(fmt::format("SELECT COUNT(*) FROM {}", table), {},
                     [&](const Row& row) { count = row.integer(0); });
    return count;
}

void write_file(const std::filesystem::path& path, std::string_view bytes) {
    std::ofstream(path, std::ios::binary) << bytes;
}

std::string bytes_of(const std::filesystem::path& path) {
    std::ostringstream bytes;
    bytes << std::ifstream(path, std::ios::binary).rdbuf();
    return bytes.str();
}

int in_a_child(const std::function<int()>& act) {
    std::cout.flush();
    const pid_t child = ::fork();
    if (child == 0) {
        int code = 99;
        try {
            code = act();
        } catch (const std::exception& error) {
            std::cerr << "in the child: " << error.what() << std::endl;
        }
        ::_exit(code);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

} // namespace mellowbin
