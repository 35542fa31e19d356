#include "app/models/scanner.h"

#include "app/book/station.h"

namespace mellowbin::app {

ScannerModel make_scanner(const Station& s, const ScannerHeard& heard) {
    const auto& settings = s.book.settings;
    return {heard, scanner_setup(settings).separator, longest_scanner_gap(settings), scanner_port(settings)};
}

} // namespace mellowbin::app
