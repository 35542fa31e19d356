#pragma once

#include "app/models/intake.h"

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::views {

/// Of the figures that need one: asked once, and of a figure where it differs.
inline constexpr std::string_view basis_of_all = "Basis of all figures";

/// One lot of the delivery, as typed, with what stands against it.
struct DeliveryLine {
    std::int64_t number = 0; ///< of the line, never used twice
    LotDraft draft;
    std::string basis;            ///< of all its figures
    std::set<Property> own_basis; ///< figures that have another

    std::set<std::string, std::less<>> left; ///< fields that were gone through: what is wrong there is said
    bool all_left = false;                   ///< of the whole form
    std::set<std::string, std::less<>> scanned;       ///< fields that a label filled
    std::set<std::string, std::less<>> expected = {}; ///< fields that the expected delivery filled

    Refusals against;              ///< every reason why it cannot be taken in as it stands
    Refusals answered;             ///< by the book, until the field is changed
    Refusals refusals;             ///< of these two, what is said: at fields gone through
    Refusals doubts;               ///< it is taken in all the same, with a reason
    std::vector<Judgement> judged; ///< against the flour's specification, where the lot can be read
    bool is_checked = false;
    bool is_from_file = false; ///< what it says beyond the usual figures stands with them

    [[nodiscard]] bool is_whole() const { return against.empty() && answered.empty(); }
    /// The field was left, or its answer chosen.
    void leave(std::string_view field);
    /// The book's answer, at a field of which reading the draft says nothing.
    void put(const Refusal& refusal);
    /// It was changed: what the book answered to it before says nothing any more.
    void change(std::string_view field);
    /// Figures without a basis of their own get the one of all.
    void spread_basis();
    /// From the figures as a file has them: the basis most of them have is that of all.
    void gather_basis();
    /// Reads the draft as intake does.
    void check(const IntakeContext& context);
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
    [[nodiscard]] DeliveryLine* find(std::int64_t number);
    [[nodiscard]] const DeliveryLine* find(std::int64_t number) const;
    void take_up(std::int64_t number);
    /// A lot of this number is on the list.
    [[nodiscard]] bool has(const std::string& code) const;

    /// A new lot at hand, with mill, flour, place, delivery note, day and bases of the one before.
    void next();
    /// What was scanned or typed as a lot number: goes into the lot at hand, or begins the next lot when that
    /// one has a number. A number that is on the list is taken up instead.
    void scanned(const std::string& code);
    /// The same of a label that says more of its lot; how many fields it filled.
    int scanned(const LotDraft& label);
    /// Lots read from a certificate join the list; the first of them is at hand. One whose number is on the
    /// list fills what is not typed there yet.
    void join(const std::vector<LotDraft>& drafts);
    /// Lots that were kept from before join the list, one of them at hand. Their numbers here, by those they
    /// had.
    std::map<std::int64_t, std::int64_t> take_up_kept(std::vector<DeliveryLine> lines, std::int64_t at_hand);
    void drop_at_hand();
    /// These were taken in. The others stay as typed; were there none, an empty delivery that remembers where
    /// the last one came from.
    void take_out(const std::vector<std::int64_t>& numbers);
    /// What is said of the delivery as a whole: of all lots that said the same as the one at hand before.
    void say_of_all(std::string LotDraft::*field, const std::string& text);

    /// Lots with anything typed: those that are taken in.
    [[nodiscard]] std::vector<std::int64_t> filled() const;
    [[nodiscard]] std::vector<LotDraft> drafts_of(const std::vector<std::int64_t>& numbers) const;
    /// Puts each refusal at its lot and field ("Lot W24-118: Moisture"); gives back those that belong to no
    /// lot. The first refused lot is at hand.
    Refusals put_at_lots(const Refusals& refusals, const std::vector<std::int64_t>& sent);

    /// The lot at hand is read anew, and the others where they have to be.
    void check(const IntakeContext& context);
    /// The lists that lots are read against, or the day, are others.
    void check_all_anew();

private:
    DeliveryLine& add(LotDraft draft);
    void begin_anew();

    std::vector<DeliveryLine> lines_;
    std::int64_t at_hand_ = 0;
    std::int64_t last_number_ = 0;
};

/// "SW-24140"; of a lot without a number "2nd lot".
std::string name_of(const Delivery& delivery, const DeliveryLine& line);

} // namespace mellowbin::views
