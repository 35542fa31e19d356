#pragma once

#include "app/models/intake.h"
#include "core/begun_delivery.h"
#include "core/delivery.h"
#include "core/result.h"
#include "ui/views/intake/delivery.h"

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::views {

/// What is typed of the delivery as a whole beside mill, note and day: its weights, its order, and the
/// expected delivery that it answers.
struct DeliveryForm {
    DeliveryDraft draft;
    std::string by_order; ///< number of the order that named the expected delivery; empty: a person did
    std::set<std::int64_t> filled; ///< lines that have what the expected delivery says
    DeliveryId joins;              ///< lots of it are in the book already
    Grams in_already;              ///< those
    BegunHold begun;               ///< that was taken over

    std::set<std::string, std::less<>> left; ///< fields that were gone through
    bool all_left = false;
    bool shows_more = false;
    Refusals answered;                 ///< by the book, until something is changed
    Refusals refusals;                 ///< what is said
    std::vector<WeightBeside> weights; ///< as they stand now

    [[nodiscard]] bool is_untouched() const { return is_empty(draft); }
    /// It is said that these differ: too much at once, too little only when somebody wants to take the lots
    /// in, for more may be typed yet.
    [[nodiscard]] bool is_due(const WeightBeside& weight) const;
    [[nodiscard]] bool asks_why() const;
    /// A field was changed, or left.
    void follow(std::string_view field, bool is_changed, bool is_left);
    /// Takes the refusals that are of its fields; gives back the others.
    Refusals take(const Refusals& refusals);
    /// Reads it as intake does, beside the lots that stand here.
    void check(const Delivery& delivery, const app::IntakeModel& model);

    /// This delivery answers that one: what it says of mill, flour and milling fills empty fields.
    void answer(const ExpectedDelivery& expected, Delivery& delivery, const app::IntakeModel& model);
    /// It does not: what it filled and nobody changed goes.
    void answer_none(Delivery& delivery);
    /// Lots that were begun since get the same, once.
    void fill(Delivery& delivery, const app::IntakeModel& model);
};

/// The expected delivery that is answered, where it is still to come; null: none.
const ExpectedDelivery* answered(const DeliveryForm& form, const app::IntakeModel& model);
/// Those that it may be, by mill, flour and day of the lot at hand, the nearest first.
std::vector<const ExpectedDelivery*> offered(const Delivery& delivery, const app::IntakeModel& model);
/// "Expected Fri 27 Nov: 12 000 kg Strong white"
std::string expected_words(const ExpectedDelivery& expected, const app::IntakeModel& model);
/// What lots here weigh as they are typed; those without a weight are counted.
struct WeightHere {
    Grams mass;
    std::size_t without = 0;
};
WeightHere weight_here(const Delivery& delivery, std::optional<std::string> flour = {});

} // namespace mellowbin::views
