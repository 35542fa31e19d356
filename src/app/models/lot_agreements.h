#pragma once

#include "app/models/lots.h"

namespace mellowbin::app {

/// Each result of a retest that stands held against the certificate's, by the limits of the plant and the
/// published ones, the newest retest first; and beside it what aging says of the difference. Neither changes
/// the other.
std::vector<AgreementRow> lot_agreements(const Station& station, const Lot& lot);

/// The rows as findings: a contradiction that aging does not explain is against the certificate.
std::vector<Finding> findings_of(const std::vector<AgreementRow>& rows);

} // namespace mellowbin::app
