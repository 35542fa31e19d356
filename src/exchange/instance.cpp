#include "exchange/instance.h"

#include "core/quantity.h"
#include "exchange/json_value.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace mellowbin::exchange {

namespace {

using nlohmann::json;
using planning::Ban;
using planning::OxidantPolicy;
using planning::Problem;

/// Reads fields of one JSON object, gathering what is missing or of the wrong kind under the object's name.
class Fields {
public:
    Fields(const json& object, std::string name, Refusals& no)
        : object_(object), name_(std::move(name)), no_(no) {}

    double number(const char* key) {
        const json* value = find(key);
        if (value && value->is_number() && std::isfinite(value->get<double>()))
            return value->get<double>();
        if (value)
            refuse(key, fmt::format("reads {}, a number is expected", json_words(*value)));
        return 0;
    }
    int whole(const char* key) {
        const json* value = find(key);
        if (value && value->is_number_integer() && std::abs(value->get<double>()) < 1e9)
            return value->get<int>();
        if (value)
            refuse(key, fmt::format("reads {}, a whole number is expected", json_words(*value)));
        return 0;
    }
    bool truth(const char* key) {
        const json* value = find(key);
        if (value && value->is_boolean())
            return value->get<bool>();
        if (value)
            refuse(key, fmt::format("reads {}, true or false is expected", json_words(*value)));
        return false;
    }
    std::string text(const char* key) {
        const json* value = find(key);
        if (value && value->is_string())
            return value->get<std::string>();
        if (value)
            refuse(key, fmt::format("reads {}, a text is expected", json_words(*value)));
        return {};
    }
    planning::Window window(const char* key) {
        const json* value = find(key);
        if (!value)
            return {};
        const auto side = [](const json& v) { return v.is_number() && std::isfinite(v.get<double>()); };
        if (!value->is_array() || value->size() != 2 || !side((*value)[0]) || !side((*value)[1])) {
            refuse(key, fmt::format("reads {}, a low and a high are expected", json_words(*value)));
            return {};
        }
        const double low = (*value)[0].get<double>();
        const double high = (*value)[1].get<double>();
        if (low >= high) {
            refuse(key, fmt::format("the low {} is not below the high {}", low, high));
            return {};
        }
        return {low, high, (high - low) / 2};
    }
    [[nodiscard]] bool has(const char* key) const { return object_.is_object() && object_.contains(key); }
    void refuse(const char* key, std::string what) {
        no_.push_back({name_ + ", " + key, std::move(what), ""});
    }

private:
    const json* find(const char* key) {
        if (!object_.is_object()) {
            if (!complained_)
                no_.push_back({name_, "an object is expected", ""});
            complained_ = true;
            return nullptr;
        }
        const auto found = object_.find(key);
        if (found != object_.end())
            return &*found;
        refuse(key, "is missing");
        return nullptr;
    }

    const json& object_;
    std::string name_;
    Refusals& no_;
    bool complained_ = false;
};

constexpr const char* property_keys[] = {"protein", "absorption", "liquefaction", "ash"};

/// When a lot matures and until when it may be used, as the file gives it.
struct Life {
    double arrived, released, ready_from, milled, maturity_max, maturity_tau;
};

class Reader {
public:
    Result<Problem> read(const json& file) {
        if (!file.is_object())
            return Refusal{"", "an object with lots, products and runs is expected", ""};
        read_head(file);
        each(file, "products", [&](const json& item, const std::string& name) { read_product(item, name); });
        each(file, "lots", [&](const json& item, const std::string& name) { read_lot(item, name); });
        each(file, "runs", [&](const json& item, const std::string& name) { read_run(item, name); });
        if (file.contains("locks"))
            each(file, "locks", [&](const json& item, const std::string& name) { read_lock(item, name); });
        if (!no_.empty())
            return no_;
        if (p_.lots.size() * p_.runs.size() > most_cells)
            return Refusal{"instance",
                           fmt::format("{} lots for {} runs were read; up to {} lots times runs are expected",
                                       p_.lots.size(), p_.runs.size(), most_cells),
                           "Plan fewer days at once"};
        fill_table();
        refuse_without_maturity();
        if (!no_.empty())
            return no_;
        if (Refusals no = planning::check(p_); !no.empty())
            return no;
        return std::move(p_);
    }

private:
    template <class Read> void each(const json& file, const char* key, Read read) {
        const auto list = file.find(key);
        if (list == file.end() || !list->is_array()) {
            no_.push_back({key, "a list is expected", ""});
            return;
        }
        int place = 0;
        for (const json& item : *list) {
            ++place;
            const bool named = item.is_object() && item.contains("id") && item["id"].is_string();
            read(item, named ? item["id"].get<std::string>() : fmt::format("{}, number {}", key, place));
        }
    }

    void read_head(const json& file) {
        Fields head(file, "instance", no_);
        if (head.has("name"))
            p_.name = head.text("name");
        p_.horizon_days = head.number("horizon");
        p_.oxidant_points_per_ppm = head.number("oxidantPointsPerPpm");
        p_.properties = {
            {"protein", "%", 1}, {"absorption", "%", 1}, {"liquefaction number", "", 1}, {"ash", "%", 2}};
        if (!head.has("weights")) {
            head.refuse("weights", "is missing");
            return;
        }
        Fields w(file["weights"], "weights", no_);
        p_.weights = {
            w.number("shortPerT"),          w.number("specPerTHalfWidth"), w.number("maturityPerT10pts"),
            w.number("pastBestBeforePerT"), w.number("wastePerT"),         w.number("oxidantPerT100ppm"),
            w.number("lotChange"),          w.number("ageQuadratic"),      w.number("costScale")};
    }

    void read_product(const json& item, const std::string& name) {
        Fields f(item, name, no_);
        planning::Product product;
        product.name = f.text("name");
        for (const char* key : property_keys)
            product.windows.push_back(f.window(key));
        product.maturity_target_points = f.number("maturityTarget");
        product.max_lots = f.whole("maxLots");
        product.min_share = f.number("minShare");
        product.oxidant = f.truth("oxidantAllowed") ? OxidantPolicy::allowed : OxidantPolicy::forbidden;
        product.oxidant_cap_ppm = f.number("oxidantCapPpm");
        p_.products.push_back(std::move(product));
    }

    void read_lot(const json& item, const std::string& name) {
        Fields f(item, name, no_);
        planning::Lot lot;
        lot.id = f.text("id");
        lot.stock_t = f.number("stockT");
        lot.use_by_day = f.number("useBy");
        lot.best_before_day = f.number("bestBefore");
        lot.cost_per_t = f.number("costPerT");
        lot.mill_oxidant_ppm = f.number("millOxidantPpm");
        const double falling_number = f.number("fallingNumber");
        if (f.has("fallingNumber") && !(falling_number > 50))
            f.refuse("fallingNumber", "must be above 50 s");
        lot.values = {f.number("protein"), f.number("absorption"),
                      falling_number > 50 ? to_liquefaction(FallingNumber{falling_number}).value() : 0.0,
                      f.number("ash")};
        const Life life{f.number("arrived"), f.number("released"),    f.number("readyFrom"),
                        f.number("milled"),  f.number("maturityMax"), f.number("maturityTau")};
        if (f.has("maturityTau") && !(life.maturity_tau > 0))
            f.refuse("maturityTau", "must be above zero");
        lot_of_[lot.id] = p_.lot_count();
        p_.lots.push_back(std::move(lot));
        lives_.push_back(life);
    }

    void read_run(const json& item, const std::string& name) {
        Fields f(item, name, no_);
        planning::Run run;
        run.id = f.text("id");
        run.day = f.number("day");
        run.shift = f.whole("shift");
        run.line = f.whole("line");
        run.product = f.whole("product");
        run.demand_t = f.number("demandT");
        run.prev_on_line = f.whole("prevOnLine");
        if (f.has("frozen") && f.truth("frozen"))
            run.state = planning::RunState::frozen;
        run_of_[run.id] = p_.run_count();
        p_.runs.push_back(std::move(run));
    }

    void read_lock(const json& item, const std::string& name) {
        Fields f(item, name, no_);
        const auto place = [&](const std::map<std::string, int>& places, const char* key) {
            const std::string id = f.text(key);
            const auto found = places.find(id);
            if (found == places.end())
                f.refuse(key, fmt::format("reads \"{}\", which is not in the list", id));
            return found == places.end() ? -1 : found->second;
        };
        p_.locks.push_back({place(run_of_, "run"), place(lot_of_, "lot"), f.number("tonnes")});
    }

    /// Figures that are numbers each may come to none: exp of a milling day far ahead.
    void refuse_without_maturity() {
        for (int l = 0; l < p_.lot_count(); ++l)
            for (int r = 0; r < p_.run_count(); ++r)
                if (p_.usable(l, r) && !std::isfinite(p_.at(l, r).maturity_points)) {
                    no_.push_back({p_.lots[l].id, "its maturity comes to no number in " + p_.runs[r].id,
                                   "Correct milled, maturityMax and maturityTau"});
                    break;
                }
    }

    void fill_table() {
        p_.size_table();
        for (int r = 0; r < p_.run_count(); ++r)
            for (int l = 0; l < p_.lot_count(); ++l) {
                const double day = p_.runs[r].day;
                const planning::Lot& lot = p_.lots[l];
                const Life& life = lives_[l];
                double points = life.maturity_max * (1 - std::exp(-(day - life.milled) / life.maturity_tau));
                if (day > lot.best_before_day)
                    points -= points_lost_a_day * (day - lot.best_before_day);
                p_.at(l, r).maturity_points = points + p_.oxidant_points_per_ppm * lot.mill_oxidant_ppm;
                if (day < life.arrived)
                    p_.ban(l, r, Ban::not_arrived, fmt::format("arrives on day {}", life.arrived));
                else if (day < life.released)
                    p_.ban(l, r, Ban::not_released, fmt::format("is released on day {}", life.released));
                else if (day < life.ready_from)
                    p_.ban(l, r, Ban::not_ready, fmt::format("is ready from day {}", life.ready_from));
                else if (day > lot.use_by_day)
                    p_.ban(l, r, Ban::past_use_by, fmt::format("is past its use-by day {}", lot.use_by_day));
            }
    }

    static constexpr std::size_t most_cells = 4'000'000; // of the table: some hundred MB
    static constexpr double points_lost_a_day = 0.6;     // the instance format's decline past best-before

    Problem p_;
    std::vector<Life> lives_;
    std::map<std::string, int> lot_of_;
    std::map<std::string, int> run_of_;
    Refusals no_;
};

} // namespace

Result<Problem> read_instance(std::string_view text) {
    json file;
    try {
        file = json::parse(text);
    } catch (const json::parse_error& error) {
        return Refusal{"", fmt::format("is not JSON: stopped at byte {}", error.byte),
                       "Check that the file is whole"};
    } catch (const json::out_of_range&) {
        return Refusal{"", "has a number that is larger than a number can be", "Correct it"};
    }
    return Reader{}.read(file);
}

std::string write_plan(const Problem& problem, const planning::Outcome& outcome) {
    json out;
    out["assignments"] = json::array();
    for (const planning::Assignment& a : outcome.plan.assignments)
        out["assignments"].push_back(
            {{"run", problem.runs[a.run].id}, {"lot", problem.lots[a.lot].id}, {"tonnes", a.tonnes}});
    const planning::Parts& parts = outcome.evaluation.parts;
    out["objective"] = outcome.evaluation.objective;
    out["parts"] = {{"shortage", parts.shortage},
                    {"windows", parts.windows},
                    {"maturity", parts.maturity},
                    {"oxidant", parts.oxidant},
                    {"pastBest", parts.past_best},
                    {"waste", parts.waste},
                    {"lotChanges", parts.lot_changes},
                    {"age", parts.age},
                    {"cost", parts.cost}};
    if (outcome.bound)
        out["bound"] = *outcome.bound;
    const auto tell = [&out](const char* tier, const std::optional<double>& proven) {
        if (proven)
            out["boundByPart"][tier] = *proven;
    };
    tell("shortage", outcome.tiers.shortage);
    tell("windows", outcome.tiers.windows);
    tell("maturity", outcome.tiers.maturity);
    tell("waste", outcome.tiers.waste);
    out["steps"] = outcome.steps;
    return out.dump(1) + "\n";
}

} // namespace mellowbin::exchange
