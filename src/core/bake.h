#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/limit.h"
#include "core/quantity.h"

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin {

enum class LoafMeasure { volume, height };
std::string_view key_of(LoafMeasure measure);
std::string_view name_of(LoafMeasure measure);
std::string_view unit_of(LoafMeasure measure); ///< "ml", "mm"
std::optional<LoafMeasure> loaf_measure_from_key(std::string_view key);

/// How far a flour has matured, with its range: 10, 50 and 90 %.
struct MaturityRange {
    Maturity low;
    Maturity likely;
    Maturity high;
    friend bool operator==(const MaturityRange&, const MaturityRange&) = default;
};

/// One loaf of a bake ladder. It is taken back by a second row, never edited.
struct Bake {
    BakeId id;
    LotId lot;
    Substance substance{};
    OxidantPpm dose; ///< of the bakery, beside what the mill put in
    LoafMeasure measure{};
    double size = 0; ///< ml or mm
    Day baked_on;
    std::string note;
    std::string who;
    Instant logged_at;
    bool is_withdrawn = false;
    std::optional<MaturityRange> maturity = {}; ///< of the flour on the day, as estimated when it was logged
    friend bool operator==(const Bake&, const Bake&) = default;
};

/// A bake as typed.
struct BakeDraft {
    std::string substance; ///< name
    std::string dose;      ///< mg/kg
    std::string measure;   ///< "volume" or "height"
    std::string size;
    std::string baked_on; ///< empty: today
    std::string note;
};

enum class KeepingKind { mould, firmness };
std::string_view key_of(KeepingKind kind);
std::string_view name_of(KeepingKind kind);
std::optional<KeepingKind> keeping_kind_from_key(std::string_view key);

/// What bread of a product did while it was kept: the site's own record.
struct KeepingRecord {
    KeepingId id;
    ProductId product;
    std::optional<RunId> run;
    KeepingKind kind{};
    Day baked_on;
    int days = 0;            ///< after the bake
    bool mould_seen = false; ///< else: free of it on that day
    double firmness_g =
        0; ///< force of the crumb's compression, g, by the site's own test; above 0 of firmness
    std::optional<double> ph; ///< of the crumb
    std::string note;
    std::string who;
    Instant logged_at;
    bool is_withdrawn = false;
    friend bool operator==(const KeepingRecord&, const KeepingRecord&) = default;
};

/// A record as typed.
struct KeepingDraft {
    std::string product; ///< name
    std::string kind;    ///< "mould" or "firmness"
    std::string baked_on;
    std::string days;
    std::string finding; ///< "mould", "none" of mould
    std::string firmness;
    std::string ph;
    std::string note;
};

} // namespace mellowbin
