#include "app/acts/climate.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "core/climate_doubts.h"
#include "core/decimal.h"
#include "core/door.h"
#include "core/typed_text.h"
#include "db/climate_store.h"
#include "db/lot_store.h"
#include "exchange/climate_log.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace mellowbin::app {
namespace {

Result<std::string> bytes_of(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream bytes;
    if (file)
        bytes << file.rdbuf();
    if (!file || file.bad())
        return Refusal{"Logger's file", fmt::format("\"{}\" cannot be read: {}", path, std::strerror(errno)),
                       "Check the name and that the file is there"};
    return bytes.str();
}

std::string read_in_words(const exchange::ClimateFile& file) {
    auto [low, high] = std::minmax_element(
        file.readings.begin(), file.readings.end(),
        [](const ClimateReading& a, const ClimateReading& b) { return a.temperature < b.temperature; });
    std::string words =
        fmt::format("{} readings from {} to {}, {} to {} °C", file.readings.size(),
                    iso(file.readings.front().at).substr(0, 10), iso(file.readings.back().at).substr(0, 10),
                    fixed(low->temperature.value(), 1), fixed(high->temperature.value(), 1));
    if (!file.set_aside.empty())
        words += fmt::format("; {} {} set aside", file.set_aside.size(),
                             file.set_aside.size() == 1 ? "line" : "lines");
    if (file.before_flour > 0)
        words +=
            fmt::format("; {} before that left out, long before this plant had flour", file.before_flour);
    return words;
}

/// "; taken in all the same: Sensor: does not move …; because: the room is kept at it"
std::string doubts_in_words(const Refusals& doubts, std::string_view reason) {
    std::string words;
    for (const auto& doubt : doubts)
        words += fmt::format("{}{}: {}", words.empty() ? "; taken in all the same: " : "; ", doubt.field,
                             doubt.what);
    return doubts.empty() ? words : fmt::format("{}; because: {}", words, trimmed(reason));
}

Refusals asked(Refusals doubts) {
    doubts.push_back({std::string(accept_field), "is empty", "Say it in a few words, or leave the file out"});
    return doubts;
}

/// The first lines set aside and the notes, for the journal's detail.
std::string set_aside_in_words(const exchange::ClimateFile& file) {
    constexpr std::size_t most = 100;
    std::string words;
    for (std::size_t i = 0; i < std::min(most, file.set_aside.size()); ++i)
        words += fmt::format("line {}: {}: {}\n", file.set_aside[i].line, file.set_aside[i].what,
                             file.set_aside[i].why);
    if (file.set_aside.size() > most)
        words += fmt::format("and {} more\n", file.set_aside.size() - most);
    for (const auto& note : file.notes)
        words += note + "\n";
    return words;
}

/// The same for whoever reads the file: all that a person may want to look through.
LogRead log_read(const exchange::ClimateFile& file, const ClimateLog& log, const Place& place) {
    constexpr std::size_t most = 10'000;
    LogRead read{log.file, place.name, {}, file.set_aside.size(), file.notes, log.id};
    for (std::size_t i = 0; i < std::min(most, file.set_aside.size()); ++i)
        read.set_aside.push_back({file.set_aside[i].line, file.set_aside[i].what, file.set_aside[i].why});
    return read;
}

} // namespace

Result<Told> carry_out(State& state, const ReadClimateLog& intent) {
    const auto place = std::find_if(state.book.places.begin(), state.book.places.end(),
                                    [&](const Place& p) { return p.name == intent.place; });
    Refusals refusals;
    if (place == state.book.places.end())
        refusals.push_back(
            {"Place", fmt::format("\"{}\" is not known", intent.place), "Choose one from the list"});
    if (intent.path.empty())
        refusals.push_back({"Logger's file", "is empty", "Enter the file's name"});
    if (!refusals.empty())
        return refusals;
    const auto bytes = bytes_of(intent.path);
    if (!bytes)
        return bytes.refusals();
    const auto first_flour = LotStore(*state.connection).first_flour();
    const auto file = exchange::read_climate_log(
        *bytes, {state.setup.clock.zone(), state.setup.clock.now(),
                 first_flour ? std::optional<Instant>(*first_flour) : std::nullopt});
    if (!file)
        return file.refusals();
    const auto doubts = what_stands_against(file->readings, *place, {file->unit, file->temperature_head});
    if (!doubts.empty() && trimmed(intent.accept_reason).empty())
        return asked(doubts);
    ClimateLog log;
    log.place = place->id;
    log.file = std::filesystem::path(intent.path).filename().string();
    log.words = read_in_words(*file) + doubts_in_words(doubts, intent.accept_reason);
    const std::string words = fmt::format("Climate of {}: {} ({})", place->name, log.words, log.file);
    Change change = state.change("read_climate", subject_of(*place), words);
    change.journal_line().detail = set_aside_in_words(*file);
    const auto id = ClimateStore(*state.connection).add(change, log, file->readings);
    if (!id)
        return change.refuse(id.refusals());
    change.commit();
    log.id = *id;
    state.log_read = log_read(*file, log, *place);
    return Told{words, Touched::nothing, "Undo: take the log back", {WithdrawClimateLog{*id, "taken back"}}};
}

Result<Told> carry_out(State& state, const WithdrawClimateLog& intent) {
    const auto log = ClimateStore(*state.connection).find(intent.log);
    if (!log)
        return Refusal{"Climate log", "is not in the book", "Choose one from the list"};
    if (intent.reason.empty())
        return Refusal{"Reason", "is empty", "Say why the log does not stand"};
    const Place* place = state.book.place(log->place);
    const std::string words = fmt::format("Climate log {} of {} taken back: {}", log->file,
                                          state.book.name(log->place), intent.reason);
    Change change = state.change("withdraw_climate", place ? subject_of(*place) : Subject("place ?"), words);
    const auto done = ClimateStore(*state.connection).withdraw(change, intent.log, intent.reason);
    if (!done)
        return change.refuse(done.refusals());
    change.commit();
    if (state.log_read.log == intent.log)
        state.log_read = {};
    return Told{words};
}

} // namespace mellowbin::app
