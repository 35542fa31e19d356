#pragma once

#include "app/acts/intent.h"
#include "core/drill.h"
#include "core/id.h"

#include <memory>
#include <optional>
#include <string>

namespace mellowbin::app {

struct AppSetup;
struct CardModel;
struct Clock;
struct DeliveryRow;
struct IntakeModel;
struct JournalRow;
struct KeepingModel;
struct LeversModel;
struct LotsModel;
struct MixerModel;
struct NamedLot;
struct Notice;
struct Overview;
struct PlanModel;
struct PlantModel;
struct ReadinessModel;
struct SettingsModel;
struct SettingUpModel;
struct TraceDispatch;
struct TracePage;

/// The one way from a thing a person does to the book and back: an intent is accepted or refused by core,
/// written with its journal line in one transaction, and the read-models it touches are made anew. One
/// thread; background work takes copies and is polled.
class App {
public:
    /// Opens the book, making it if there is none. Throws BookError with a sentence for the person.
    explicit App(AppSetup setup);
    ~App();
    App(const App&) = delete;
    App& operator=(const App&) = delete;

    /// Another person is at the keyboard now; what is written from here on is theirs.
    void sign_in(const std::string& person);
    /// Carries out one intent. Whatever the world does (disk full, book damaged) ends here, as a notice.
    void handle(const Intent& intent);
    /// Takes what background work has to say. Call once a frame; true when something changed.
    bool poll();
    /// Waits until background work has ended, and takes its result: for the command line and for tests.
    void finish_work();

    /// The plant's.
    [[nodiscard]] const Clock& clock() const;
    [[nodiscard]] const Notice& notice() const;
    [[nodiscard]] const Overview& overview() const;
    [[nodiscard]] const IntakeModel& intake() const;
    [[nodiscard]] const LotsModel& lots() const;
    [[nodiscard]] const ReadinessModel& readiness() const;
    [[nodiscard]] const PlanModel& plan() const;
    [[nodiscard]] const MixerModel& mixer() const;
    [[nodiscard]] const PlantModel& plant() const;
    [[nodiscard]] const SettingsModel& settings() const;
    [[nodiscard]] const SettingUpModel& setting_up() const;
    [[nodiscard]] const TracePage& trace() const;

    /// The card of any run, made now.
    [[nodiscard]] CardModel card_of(RunId run) const;
    /// The levers of any run, weighed now.
    [[nodiscard]] LeversModel levers_of(RunId run) const;
    /// How the bread of the product of this name keeps, or nothing.
    [[nodiscard]] std::optional<KeepingModel> keeping_of(const std::string& product) const;
    /// The run of this code, however long ago, or nothing.
    [[nodiscard]] std::optional<RunId> run_of_code(const std::string& code) const;
    /// The lots of this number, however long ago, each with its mill.
    [[nodiscard]] std::vector<NamedLot> lots_of_code(const std::string& code) const;
    /// Deliveries as they came, the newest first; of the mill of this name, or of all.
    [[nodiscard]] std::vector<DeliveryRow> deliveries(const std::string& mill, int count) const;
    /// The delivery of this number, or nothing.
    [[nodiscard]] std::optional<DeliveryRow> delivery(DeliveryId id) const;
    /// Dispatches of these days, both included, by day, countered ones too; of the product of this name and
    /// the customer of this code, where they are said. Without an answer for a product that is not known.
    [[nodiscard]] std::vector<TraceDispatch> dispatches(Day from, Day until, const std::string& product,
                                                        const std::string& customer) const;
    /// The drill of this number, with its report where it has ended, or nothing.
    [[nodiscard]] std::optional<Drill> drill(DrillId id) const;
    /// The newest lines of the journal, newest first.
    [[nodiscard]] std::vector<JournalRow> journal(int count) const;

private:
    std::unique_ptr<State> state_;
};

} // namespace mellowbin::app
