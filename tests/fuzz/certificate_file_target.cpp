#include "exchange/certificate_file.h"
#include "fuzz/sound_lot.h"
#include "fuzz/target.h"
#include "support/good_lot.h"

#include <set>

namespace mellowbin::fuzz {
namespace {

void look_at(const CertificateLots& taken, const CertificateFile& file, std::string_view bytes) {
    const testing::SmallPlant plant;
    for (const auto& [line, lot] : taken.lots)
        expect_sound(lot, plant.today);
    if (!taken.refused.empty())
        expect_well_said(with_line_numbers(taken.refused), bytes);
    for (const auto& [line, reasons] : taken.refused)
        expect(!reasons.empty(), "a line that is refused has a reason");
    expect(taken.notes == file.notes, "the notes go along");
}

void take(std::string_view bytes) {
    const auto file = read_certificates(bytes, {"Weir Mill", "Bread flour", "Bay 1", ""});
    if (!file)
        return expect_well_said(file.refusals(), bytes);
    for (const auto& note : file->notes)
        expect_text(note);
    std::set<std::size_t> lines;
    for (const auto& one : file->lines)
        expect(lines.insert(one.line).second, "a line is there once");
    for (const auto& one : file->refused)
        expect(lines.insert(one.line).second, "a line is taken or refused, not both");
    const testing::SmallPlant plant;
    const auto whole = accept_certificates(*file, plant.context(), OnRefusedLine::take_nothing);
    const auto good = accept_certificates(*file, plant.context(), OnRefusedLine::take_the_good);
    look_at(whole, *file, bytes);
    look_at(good, *file, bytes);
    expect(good.lots.size() + good.refused.size() == lines.size(), "every line is a lot or refused");
    expect(whole.lots.size() == (whole.refused.empty() ? lines.size() : 0), "the whole file or nothing");
}

const Registered target{"certificate_file", take};

} // namespace
} // namespace mellowbin::fuzz
