#pragma once

#include "app/acts/notice.h"
#include "app/models/intake.h"
#include "app/models/overview.h"
#include "ui/views/common/form.h"
#include "ui/views/intake/door.h"
#include "ui/widgets/table.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::views {

/// One lot of the delivery, as typed, with what was refused of it the last time.
struct DeliveryLine {
    std::int64_t number = 0; ///< of the line, never used twice
    LotDraft draft;
    Refusals refusals;
};

/// Nothing typed of it yet; what is remembered from the lot before does not count.
bool is_untouched(const LotDraft& draft);

/// A delivery as it fills. Has always a lot at hand, and forgets what was typed only when it was taken in, or
/// when a person takes a lot off the list.
class Delivery {
public:
    Delivery();
    [[nodiscard]] const std::vector<DeliveryLine>& lines() const { return lines_; }
    [[nodiscard]] DeliveryLine& at_hand();
    [[nodiscard]] const DeliveryLine& at_hand() const;
    void take_up(std::int64_t number);

    /// A new lot at hand, with mill, flour, place, delivery note, day and bases of the one before.
    void next();
    /// What was scanned or typed as a lot number: goes into the lot at hand, or begins the next lot when that
    /// one has a number. A number that is on the list is taken up instead.
    void scanned(const std::string& code);
    /// Lots read from a file join the list; the first of them is at hand.
    void join(const std::vector<LotDraft>& drafts);
    void drop_at_hand();
    /// Taken in: an empty delivery that remembers where the last one came from.
    void empty();

    /// Lots with anything typed: those that are taken in.
    [[nodiscard]] std::vector<std::int64_t> filled() const;
    [[nodiscard]] std::vector<LotDraft> drafts_of(const std::vector<std::int64_t>& numbers) const;
    /// Puts each refusal at its lot and field ("Lot W24-118: Moisture"); gives back those that belong to no
    /// lot. The first refused lot is at hand.
    Refusals put_at_lots(const Refusals& refusals, const std::vector<std::int64_t>& sent);
    void forget_refusals();

private:
    DeliveryLine& add(LotDraft draft);
    DeliveryLine* find(std::int64_t number);

    std::vector<DeliveryLine> lines_;
    std::int64_t at_hand_ = 0;
    std::int64_t last_number_ = 0;
};

/// The dock's screen: left the delivery as it fills, right the form for the lot at hand.
struct IntakeView {
    Delivery delivery;
    std::string scanned, certificate_file;
    DoorForm door;
    bool shows_all_figures = false;
    bool asks_to_drop = false;
    bool wants_focus = true; ///< the first empty field gets the focus in the next frame
    std::string focus_field; ///< or this one: the first refused
    ui::TableState list;
    std::optional<Day> day; ///< that "Delivered on" was last set to by itself

    std::vector<std::int64_t> sent; ///< lines of the TakeIn that is being answered
    Asked take_in, file;
    Refusals refusals; ///< of the delivery as a whole
    std::uint64_t reading_seen = 0, taken_in_seen = 0;
};

void draw(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out);

} // namespace mellowbin::views
