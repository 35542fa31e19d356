#include "ui/views/common/words.h"
#include "ui/views/intake/certificate_reading.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using app::CertificateModel;
using ui::Role;

ui::Length height_of(std::size_t rows, float most) {
    return {2.3F + 2.1F * std::clamp(static_cast<float>(rows), 2.0F, most)};
}

void lots_table(CertificateForm& form, const CertificateModel& certificate) {
    static constexpr ui::Column columns[] = {
        {.head = "Where", .sample = "page 2, line 17", .sortable = false, .gives_way = 1},
        {.head = "Lot", .sample = "W24-118-0001", .sortable = false},
        {.head = "How it stands", .sample = "✕ 7 figures, 12 000 kg", .stretch = 1, .sortable = false},
    };
    const auto write = [&](std::size_t i, ui::RowWriter& row) {
        const auto& lot = certificate.lots[i];
        row.cell(lot.where, Role::quiet);
        row.cell(lot.code.empty() ? "no number" : lot.code);
        row.cell(lot.words, lot.is_good() ? Role::good : lot.refusals.empty() ? Role::mind : Role::stop);
    };
    ui::part(fmt::format("Its lots: {} of {} with nothing against them", certificate.good,
                         certificate.lots.size()));
    ui::table({.name = "Lots of the certificate",
               .columns = columns,
               .rows = certificate.lots.size(),
               .record = [](std::size_t i) { return static_cast<std::int64_t>(i); },
               .write_row = write,
               .when_empty = "No lot was found in it.",
               .density = ui::Density::close,
               .height = height_of(certificate.lots.size(), 6)},
              form.lots);
}

/// What stands against the lot that is chosen, or against the first that has something.
void against(const CertificateForm& form, const CertificateModel& certificate) {
    const auto& lots = certificate.lots;
    auto at = lots.end();
    if (form.lots.selected && *form.lots.selected < static_cast<std::int64_t>(lots.size()))
        at = lots.begin() + *form.lots.selected;
    if (at == lots.end() || at->refusals.empty())
        at = std::find_if(lots.begin(), lots.end(), [](const auto& lot) { return !lot.refusals.empty(); });
    if (at != lots.end())
        ui::all_refusals(at->refusals);
}

std::string joined(const std::vector<std::string>& words) {
    std::string all;
    for (const auto& one : words)
        all += (all.empty() ? "" : "; ") + one;
    return all;
}

void every_value(CertificateForm& form, const CertificateModel& certificate) {
    static constexpr ui::Column columns[] = {
        {.head = "Where", .sample = "page 2, line 17", .sortable = false},
        {.head = "On the paper", .sample = "Feuchtkleber", .stretch = 1, .sortable = false},
        {.head = "There", .sample = "12,85 g/kg", .sortable = false},
        {.head = "Understood", .sample = "Falling number", .sortable = false},
        {.head = "Value", .sample = "12 500", .align = ui::Align::right, .sortable = false},
        {.head = "Unit", .sample = "mm H2O", .sortable = false},
        {.head = "Basis", .sample = "14 % moisture", .sortable = false, .gives_way = 2},
        {.head = "Method", .sample = "ICC 115/1", .sortable = false, .gives_way = 1},
        {.head = "Asked", .sample = "▲ Which basis?", .stretch = 1, .sortable = false, .gives_way = 3},
    };
    const auto write = [&](std::size_t i, ui::RowWriter& row) {
        const auto& value = certificate.rows[i];
        row.cell(value.where, Role::quiet);
        row.cell(value.shown);
        row.cell(value.text);
        row.cell(value.name);
        row.cell(value.value.empty() ? "–" : value.value);
        row.cell(value.unit, Role::quiet);
        row.cell(value.basis);
        row.cell(value.nitrogen_factor.empty() ? value.method
                                               : value.method + " N x " + value.nitrogen_factor);
        const auto asked = joined(value.asked);
        row.cell(asked.empty() ? value.note : asked, asked.empty() ? Role::quiet : Role::mind);
    };
    ui::table({.name = "Every value",
               .columns = columns,
               .rows = certificate.rows.size(),
               .record = [](std::size_t i) { return static_cast<std::int64_t>(i); },
               .write_row = write,
               .density = ui::Density::close,
               .height = height_of(certificate.rows.size(), 12)},
              form.values);
}

} // namespace

void certificate_values(CertificateForm& form, const CertificateModel& certificate) {
    ui::gap(2);
    if (certificate.lots.size() != 1 || !certificate.lots.front().refusals.empty())
        lots_table(form, certificate);
    against(form, certificate);
    if (certificate.rows.size() <= certificate.labels.size())
        return; // each stands above
    if (!form.shows_every_value) {
        form.shows_every_value = ui::button(fmt::format("Show all {} values", certificate.rows.size()),
                                            {.kind = ui::ButtonKind::quiet});
        return;
    }
    if (ui::button("Hide the values", {.kind = ui::ButtonKind::quiet}))
        form.shows_every_value = false;
    every_value(form, certificate);
}

} // namespace mellowbin::views
