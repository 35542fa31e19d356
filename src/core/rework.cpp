#include "core/rework.h"

#include "core/draft_reader.h"

namespace mellowbin {
namespace {

constexpr Bounds weights{0.001, 10'000, "kg"};

} // namespace

std::string_view key_of(ReworkKind kind) { return kind == ReworkKind::dough ? "dough" : "flour"; }

std::optional<ReworkKind> rework_kind_from_key(std::string_view key) {
    if (key == "dough")
        return ReworkKind::dough;
    if (key == "flour")
        return ReworkKind::flour;
    return {};
}

Result<Rework> accept(const ReworkDraft& draft) {
    DraftReader reader;
    Rework rework;
    const auto kind = trimmed(draft.kind);
    const auto read = rework_kind_from_key(kind.empty() ? "dough" : kind);
    if (!read)
        reader.refuse("Kind", fmt::format("\"{}\" is not known", excerpt(kind)), "Choose dough or flour");
    rework.kind = read.value_or(ReworkKind::dough);
    rework.mass = to_grams(Kilograms{reader.required_number("Weight", draft.kg, weights)});
    rework.note = trimmed(draft.note);
    if (!reader.refusals.empty())
        return reader.refusals;
    return rework;
}

Refusals what_stands_against(const Rework& rework, Grams made, Grams put_back_before) {
    Refusals refusals;
    if (!(rework.from < rework.into))
        refusals.push_back({"Put back", "is of a batch that was not mixed before the one it went into",
                            "Choose an earlier batch"});
    const auto kg = [](Grams mass) { return fixed(to_kilograms(mass).value(), 1); };
    if (put_back_before + rework.mass > made)
        refusals.push_back({"Weight",
                            fmt::format("{} kg was read, but the batch made {} kg, and {} kg of it was put "
                                        "back before",
                                        kg(rework.mass), kg(made), kg(put_back_before)),
                            "Correct the weight, or choose another batch"});
    return refusals;
}

} // namespace mellowbin
