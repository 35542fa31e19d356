#include "app/acts/scan_reading.h"

#include "app/book/scanner.h"

namespace mellowbin::app {

Result<ReadBytes> read_bytes(std::span<const Setting> settings, std::string_view bytes) {
    auto scan = exchange::read_scan(bytes, scanner_setup(settings));
    if (!scan)
        return scan.refusals();
    auto doubt = exchange::separator_doubt(scan->elements);
    auto lot = scan->is_gs1() ? exchange::value_of(scan->elements, "10") : scan->text;
    return ReadBytes{std::move(*scan), std::move(lot), std::move(doubt)};
}

Result<std::string> lot_in(std::span<const Setting> settings, std::string_view bytes) {
    const auto read = read_bytes(settings, bytes);
    if (!read)
        return read.refusals();
    if (read->lot.empty())
        return Refusal{"Scan", "the label has no lot number",
                       "Scan the label with the lot, or type its number"};
    return read->lot;
}

} // namespace mellowbin::app
