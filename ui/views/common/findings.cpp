#include "ui/views/common/findings.h"

#include "ui/widgets/ui.h"

namespace mellowbin::views {

using ui::Role;

Role role_of(app::Finding::Weight weight) {
    switch (weight) {
    case app::Finding::Weight::well:
        return Role::good;
    case app::Finding::Weight::mind:
        return Role::mind;
    case app::Finding::Weight::against:
        return Role::stop;
    }
    return Role::ink;
}

void draw_findings(const std::vector<app::Finding>& findings) {
    for (const auto& finding : findings)
        ui::status(role_of(finding.weight), finding.words);
}

} // namespace mellowbin::views
