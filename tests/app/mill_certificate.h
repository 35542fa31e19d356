#pragma once

#include "app/acts/certificates.h"
#include "app/app.h"
#include "app/models/certificate.h"
#include "app/models/intake.h"

#include <string>
#include <utility>
#include <vector>

namespace mellowbin::tests {

/// A certificate as an invented mill writes it: one lot, in German, tabs between the columns; of protein it
/// says no basis. `more` are further lines of the table.
inline std::string german_certificate(const std::string& lot, const std::string& more = "") {
    return "Analysenzertifikat Weizenmehl\n"
           "Chargennummer:\t" +
           lot +
           "\n"
           "Menge:\t12000 kg\n"
           "Mahldatum:\t20.11.2026\n"
           "\n"
           "Merkmal\tWert\tEinheit\tBasis\tMethode\n"
           "Feuchtigkeit\t14,1\t%\twie besehen\tICC 110/1\n"
           "Protein\t11,9\t%\t\tICC 105/2\n"
           "Asche\t0,58\t%\ti. Tr.\tICC 104/1\n"
           "Fallzahl\t320\ts\t\tICC 107/1\n" +
           more;
}

/// What a person answers to all that is asked: 14 % moisture for a basis, else the first answer, or "1" where
/// it is typed. `labels` is said with it.
inline void answer_all_asked(app::App& app, const std::vector<app::LabelSaid>& labels = {}) {
    app::CertificateSaid said{"", labels, {}};
    for (int times = 0; times < 5; ++times) {
        for (const auto& asked : app.intake().certificate.asked) {
            std::string answer = asked.choices.empty() ? "1" : asked.choices.front().key;
            for (const auto& choice : asked.choices)
                if (asked.kind == "basis" && choice.words.find("14 %") != std::string::npos)
                    answer = choice.key;
            said.answers.push_back({asked.key, answer});
        }
        app.handle(app::UnderstandCertificate{said});
    }
}

} // namespace mellowbin::tests
