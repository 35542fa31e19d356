#pragma once

#include "core/lot.h"

#include <string>
#include <string_view>
#include <variant>

namespace mellowbin {

/// A column that gives one of the draft's plain fields.
struct FieldColumn {
    std::string_view name;        ///< "weight kg"
    std::string LotDraft::*field; ///< where it goes
    std::string_view unit = {};   ///< that goes there with it
};

/// A column of results: all that a figure needs but its value.
struct FigureColumn {
    FigureDraft figure;
};

/// A column of what the mill added, mg/kg.
struct AdditionColumn {
    Substance substance{};
};

/// A column nobody asked for.
struct UnknownColumn {};

using CertificateColumn = std::variant<FieldColumn, FigureColumn, AdditionColumn, UnknownColumn>;

/// What a head of a certificate file means. Refused where it names something known with a wrong or missing
/// unit, without its basis, or with brackets that cannot be read.
Result<CertificateColumn> read_certificate_head(std::string_view head);

} // namespace mellowbin
