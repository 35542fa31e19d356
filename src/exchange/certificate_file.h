#pragma once

#include "core/lot.h"

#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// What holds for every lot of a certificate file that has no column for it; a column that is there wins,
/// even where a cell of it is empty. An empty delivery date is today.
struct CertificateDefaults {
    std::string mill;
    std::string flour;
    std::string place;
    std::string delivered_on;
};

/// A lot as one line of the file gives it.
struct CertificateLine {
    std::size_t line = 0; ///< of the file, from 1
    LotDraft draft;
};

/// A line that cannot become a lot, with every reason.
struct RefusedLine {
    std::size_t line = 0;
    Refusals reasons;
};

/// A certificate file, taken apart. Every data line is in one of the two lists.
struct CertificateFile {
    std::vector<CertificateLine> lines;
    std::vector<RefusedLine> refused;
    std::vector<std::string> notes; ///< columns not read, lot numbers a spreadsheet may have bent, ...
};

/// Reads a CSV file of certificates, a lot a line, columns named by head in any order and case:
///   lot number (needed), weight kg (needed), mill, flour, place, milled on, delivered on, best before, bag
///   kg, price per tonne, delivery note, certificate date, flour temperature °C or °F; a property with its
///   unit and, in brackets, its basis, its method and for protein the nitrogen factor: "moisture %", "protein
///   % (N x 6.25, as is)", "damaged starch % (14 % moisture; AACC 76-31)", "alveograph W 1e-4 J"; a substance
///   the mill added: "ascorbic acid mg/kg", empty or 0 where it did not.
/// A column of another name is named in a note. The whole file is refused, with every reason, when it is no
/// CSV in UTF-8, a needed column is missing, or a head gives a wrong unit, no basis, or words that are none.
Result<CertificateFile> read_certificates(std::string_view bytes, const CertificateDefaults& defaults);

/// What happens to the good lines of a file that has refused ones.
enum class OnRefusedLine { take_nothing, take_the_good };

/// The lots of a certificate file, and the lines that did not become one.
struct CertificateLots {
    struct FromLine {
        std::size_t line = 0;
        Lot lot;
    };
    std::vector<FromLine> lots; ///< empty when a line was refused and nothing is to be taken
    std::vector<RefusedLine> refused;
    std::vector<std::string> notes;
};

/// Accepts every line as intake would. Both lists are given, whatever is to be taken.
CertificateLots accept_certificates(const CertificateFile& file, const IntakeContext& context,
                                    OnRefusedLine policy);

/// The reasons of all lines in one list, each field with its line in front: "Line 7, Moisture".
Refusals with_line_numbers(const std::vector<RefusedLine>& refused);

} // namespace mellowbin
