#include "ui/views/mixer/kept.h"

#include "app/acts/looking.h"
#include "ui/views/common/keep_take_back.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {

void keep(auto& k, Kind<app::FlourGiven> auto& given) {
    auto& [lot, mass, code] = given;
    k("lot", lot);
    k("mass", mass);
    k("code", code);
}

void keep(auto& k, Kind<app::BatchDraft> auto& draft) {
    auto& [flour, water, water_temperature, ice, oxidant, checked_by, answer] = draft;
    if constexpr (std::remove_reference_t<decltype(k)>::writes) {
        // Without those that the form made room for.
        std::vector<app::FlourGiven> typed;
        std::copy_if(flour.begin(), flour.end(), std::back_inserter(typed),
                     [](const app::FlourGiven& one) { return !(one.mass + one.code).empty(); });
        k("flour", typed);
    } else {
        k("flour", flour);
    }
    k("water", water);
    k("water_temperature", water_temperature);
    k("ice", ice);
    k("oxidant", oxidant);
    k("checked_by", checked_by);
    k("answer", answer);
}

void keep(auto& k, Kind<ResultDraft> auto& draft) {
    auto& [dough_temperature, ph, feel, mixing_minutes, fermentation_minutes, note, answer] = draft;
    k("dough_temperature", dough_temperature);
    k("ph", ph);
    k("feel", feel);
    k("mixing_minutes", mixing_minutes);
    k("fermentation_minutes", fermentation_minutes);
    k("note", note);
    k("answer", answer);
}

void keep(auto& k, Kind<KeepingDraft> auto& draft) {
    auto& [product, kind, baked_on, days, finding, firmness, ph, note] = draft;
    k("product", product);
    k("kind", kind);
    k("baked_on", baked_on);
    k("days", days);
    k("finding", finding);
    k("firmness", firmness);
    k("ph", ph);
    k("note", note);
}

void keep(auto& k, Kind<SolutionForm> auto& form) {
    auto& [is_open, wants_focus, substance, strength, keeps, answer, made, ended] = form;
    k("is_open", is_open);
    k("substance", substance);
    k("strength", strength);
    k("keeps", keeps);
    k("answer", answer);
}

void keep(auto& k, Kind<CounterQuestion> auto& question) {
    auto& [batch, words, reason, asked] = question;
    k("batch", batch);
    k("words", words);
    k("reason", reason);
}

void keep(auto& k, Kind<ClearBagsQuestion> auto& question) {
    auto& [run, by, reason, asked] = question;
    k("run", run);
    k("by", by);
    k("reason", reason);
}

std::string key_words(ShownBatch key) { return fmt::format("{}-{}", key.run.number(), key.batch); }

bool read_key(std::string_view words, ShownBatch& key) {
    const auto dash = words.find('-');
    const auto run = kept::number_in(words.substr(0, dash));
    const auto batch =
        dash == std::string_view::npos ? std::nullopt : kept::number_in(words.substr(dash + 1));
    key = {RunId(run.value_or(0)), static_cast<int>(batch.value_or(0))};
    return run && batch;
}

namespace {

std::string words_of(ShownBatch key, const app::MixerModel& model) {
    const auto at = std::find_if(model.runs.begin(), model.runs.end(),
                                 [&](const app::RunChoice& run) { return run.run == key.run; });
    return at == model.runs.end() ? fmt::format("batch {} of a run", key.batch)
                                  : fmt::format("batch {} of {}", key.batch, at->words);
}

std::string words_of(BatchId batch, const app::MixerModel& model) {
    if (model.card)
        for (const auto& row : model.card->logged)
            if (row.id == batch)
                return fmt::format("what came of batch {}", row.number);
    return "what came of a batch";
}

std::string words_of(ProductId product, const app::MixerModel& model) {
    return model.keeping && model.keeping->product == product
               ? "what bread did: " + model.keeping->product_name
               : "what bread of a product did";
}

/// A number that was refused is scanned anew.
bool is_begun(const BagScan& scan) {
    return !scan.text.empty() && scan.asked.refusals.empty() && !scan.asked.is_waiting();
}

void keep_questions(KeptWriter& k, const MixerView& view) {
    if (const auto& question = view.log.question; question && !question->reason.empty()) {
        k.begun("a batch to counter: " + question->words);
        k("countering", *question);
    }
    if (const auto& question = view.clearing; question && !(question->by + question->reason).empty()) {
        k.begun("a wrong bag to clear");
        k("clearing", *question);
    }
    keep_question(k, "taking_back", view.keeping.taking_back);
}

} // namespace

void keep_begun(KeptWriter& k, const MixerView& view, const app::MixerModel& model) {
    keep_form(k, "batches", view.given, [&](ShownBatch key) { return words_of(key, model); });
    keep_form(k, "results", view.result, [&](BatchId key) { return words_of(key, model); });
    keep_form(k, "keeping", view.keeping.form, [&](ProductId key) { return words_of(key, model); });
    if (const auto& form = view.solution; !(form.strength + form.keeps + form.answer).empty()) {
        k.begun("a stock solution");
        k("solution", form);
    }
    if (is_begun(view.scan)) {
        k.begun("a bag's number");
        k("scan", view.scan.text);
    }
    keep_questions(k, view);
    k("run", view.shown.run);
    k("page", view.page);
}

void take_up(KeptReader& k, MixerView& view, app::Intents& out) {
    take_up_form(k, "batches", view.given);
    take_up_form(k, "results", view.result);
    take_up_form(k, "keeping", view.keeping.form);
    const auto& solution = view.solution;
    if ((solution.strength + solution.keeps + solution.answer).empty() && k.has("solution"))
        k("solution", view.solution);
    if (view.scan.text.empty())
        k("scan", view.scan.text);
    if (!view.log.question && k.has("countering"))
        k("countering", view.log.question);
    if (!view.clearing && k.has("clearing"))
        k("clearing", view.clearing);
    take_up_question(k, "taking_back", view.keeping.taking_back);
    k("page", view.page);
    view.page = std::clamp(view.page, 0, static_cast<int>(MixerView::keeping_page));
    RunId run;
    k("run", run);
    if (run.is_known())
        out.emplace_back(app::OpenRun{run});
}

} // namespace mellowbin::views
