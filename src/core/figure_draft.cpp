#include "core/figure_draft.h"

#include "core/draft_reader.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin {
namespace {

/// The basis of a figure that was read; nothing where it is refused.
std::optional<Basis> read_stated_basis(const FigureDraft& figure, double value, DraftReader& reader) {
    const auto& kind = traits(figure.property);
    const auto basis = read_basis(kind.name, figure.basis);
    if (!basis) {
        append(reader.refusals, basis.refusals());
        return {};
    }
    if (kind.has_basis && !basis->is_stated()) {
        reader.refuse(kind.name, fmt::format("{} {} was read without its moisture basis", value, kind.unit),
                      "Say whether it is as is, at 14 % moisture or on dry matter");
        return {};
    }
    if (figure.property == Property::moisture && basis->is_stated() && !basis->is_as_is()) {
        reader.refuse(kind.name,
                      fmt::format("the basis \"{}\" was read; as is is expected", in_words(*basis)),
                      "Enter the water as a share of the flour as it lies there");
        return {};
    }
    return kind.has_basis ? *basis : Basis{};
}

std::optional<double> read_value(const FigureDraft& figure, ZeroFigures zero_figures, DraftReader& reader) {
    const auto& kind = traits(figure.property);
    const std::string unit(kind.unit);
    const auto value = reader.number(kind.name, figure.value, {kind.lowest, kind.highest, unit.c_str()});
    if (value != 0.0 || zero_figures == ZeroFigures::are_taken)
        return value;
    reader.refuse(kind.name,
                  fmt::format("0 was read; above 0, up to {}{}{} is expected", kind.highest,
                              unit.empty() ? "" : " ", unit),
                  "Leave the field empty where nothing was measured");
    return {};
}

void read_figure(const FigureDraft& figure, ZeroFigures zero_figures, DraftReader& reader,
                 Certificate& certificate) {
    const auto& kind = traits(figure.property);
    const auto value = read_value(figure, zero_figures, reader);
    if (!value)
        return;
    const auto basis = read_stated_basis(figure, *value, reader);
    // 5.7 for wheat flour, 6.25 on nutrition labels; the bounds hold any factor in use for cereals.
    const auto factor = figure.property == Property::protein
                            ? reader.number("Nitrogen factor", figure.nitrogen_factor, {5, 7, ""})
                            : std::nullopt;
    if (!basis)
        return;
    if (certificate.find(figure.property)) {
        reader.refuse(kind.name, fmt::format("stands twice; the second figure is {} {}", *value, kind.unit),
                      "Keep one of the two");
        return;
    }
    certificate.set({figure.property, *value, *basis, std::string(trimmed(figure.method)),
                     factor.value_or(wheat_nitrogen_factor)});
}

/// A moisture that was typed and refused is one reason, not one for each figure that needs it.
void check_bases_can_be_restated(std::span<const FigureDraft> figures, const Certificate& certificate,
                                 DraftReader& reader) {
    const bool moisture_was_typed =
        std::any_of(figures.begin(), figures.end(), [](const FigureDraft& figure) {
            return figure.property == Property::moisture && !trimmed(figure.value).empty();
        });
    if (moisture_was_typed && !certificate.moisture())
        return;
    for (const auto& value : certificate.values()) {
        const auto restated = value_at_14(certificate, value.property);
        if (!restated)
            append(reader.refusals, restated.refusals());
    }
}

} // namespace

FigureDraft& figure_of(std::vector<FigureDraft>& figures, Property property) {
    const auto at =
        std::find_if(figures.begin(), figures.end(), [&](const auto& f) { return f.property == property; });
    if (at != figures.end())
        return *at;
    return figures.emplace_back(FigureDraft{property, "", "", "", ""});
}

Certificate read_figures(std::span<const FigureDraft> figures, ZeroFigures zero_figures,
                         DraftReader& reader) {
    Certificate certificate;
    for (const auto& figure : figures)
        read_figure(figure, zero_figures, reader, certificate);
    check_bases_can_be_restated(figures, certificate, reader);
    return certificate;
}

} // namespace mellowbin
