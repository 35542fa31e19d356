#include "exchange/symbol.h"

#include <fmt/format.h>

#include <array>
#include <memory>
#include <zint.h>

namespace mellowbin::exchange {
namespace {

struct KindTraits {
    SymbolKind kind;
    std::string_view name;
    int symbology;
    bool is_gs1;
    std::size_t quiet; ///< modules, of the symbology's standard
};
constexpr std::array kinds{
    KindTraits{SymbolKind::gs1_128, "GS1-128", BARCODE_GS1_128, true, 10},
    KindTraits{SymbolKind::gs1_data_matrix, "GS1 DataMatrix", BARCODE_DATAMATRIX, true, 1},
    KindTraits{SymbolKind::gs1_qr, "GS1 QR Code", BARCODE_QRCODE, true, 4},
    KindTraits{SymbolKind::code_128, "Code 128", BARCODE_CODE128, false, 10},
    KindTraits{SymbolKind::data_matrix, "Data Matrix", BARCODE_DATAMATRIX, false, 1},
    KindTraits{SymbolKind::qr, "QR Code", BARCODE_QRCODE, false, 4},
};

const KindTraits& traits(SymbolKind kind) { return kinds[static_cast<std::size_t>(kind)]; }

struct FreeSymbol {
    void operator()(zint_symbol* symbol) const { ZBarcode_Delete(symbol); }
};

Result<Symbol> encoded(const KindTraits& kind, const std::string& text) {
    const std::unique_ptr<zint_symbol, FreeSymbol> made(ZBarcode_Create());
    made->symbology = kind.symbology;
    made->input_mode = kind.is_gs1 ? GS1_MODE : UNICODE_MODE;
    made->warn_level = WARN_FAIL_ALL; // a wrong check digit, too
    if (kind.symbology == BARCODE_DATAMATRIX)
        made->option_3 = DM_SQUARE; // which every reader knows
    const auto* bytes = reinterpret_cast<const unsigned char*>(text.data());
    if (ZBarcode_Encode(made.get(), bytes, static_cast<int>(text.size())) >= ZINT_ERROR)
        return Refusal{std::string(kind.name), made->errtxt,
                       "Put less into it, or use another kind of symbol"};
    Symbol symbol;
    symbol.columns = static_cast<std::size_t>(made->width);
    symbol.rows = static_cast<std::size_t>(made->rows);
    symbol.quiet = kind.quiet;
    symbol.dark.reserve(symbol.columns * symbol.rows);
    for (std::size_t row = 0; row < symbol.rows; ++row)
        for (std::size_t column = 0; column < symbol.columns; ++column)
            symbol.dark.push_back((made->encoded_data[row][column / 8] >> column % 8 & 1) != 0);
    return symbol;
}

} // namespace

std::string_view name_of(SymbolKind kind) { return traits(kind).name; }

Result<Symbol> symbol_of(SymbolKind kind, const Elements& elements) {
    if (!traits(kind).is_gs1)
        return Refusal{std::string(name_of(kind)), "holds no elements of GS1", "Use the kind of GS1"};
    std::string text; // brackets that no value can have
    for (const auto& element : elements)
        text += fmt::format("[{}]{}", element.identifier, element.value);
    return encoded(traits(kind), text);
}

Result<Symbol> symbol_of(SymbolKind kind, std::string_view text) {
    if (traits(kind).is_gs1)
        return Refusal{std::string(name_of(kind)), "holds elements of GS1 alone", "Use the plain kind"};
    return encoded(traits(kind), std::string(text));
}

} // namespace mellowbin::exchange
