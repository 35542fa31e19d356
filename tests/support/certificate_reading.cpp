#include "support/certificate_reading.h"

#include "exchange/certificate_paper.h"

namespace mellowbin::testing {

exchange::CertificateReading read(const std::string& text, const exchange::CertificateRequest& asked) {
    const auto sheets = exchange::read_paper(text);
    if (!sheets)
        return exchange::understand({}, asked);
    return exchange::understand(*sheets, asked);
}

} // namespace mellowbin::testing
