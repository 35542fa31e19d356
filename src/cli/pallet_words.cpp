#include "cli/pallet_words.h"

#include "app/models/intake.h"
#include "cli/say.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <ostream>

namespace mellowbin::cli {

Result<std::pair<std::string, PalletDraft>> read_pallet(std::string_view typed) {
    const auto badly_written = [&] {
        return Refusal{"Pallet", fmt::format("\"{}\" was read; {} is expected", excerpt(typed), pallet_form),
                       "Such as --pallet \"W24-118=106141411234567897; 1000 kg\""};
    };
    const auto equals = typed.rfind('='); // a lot's number may have one
    if (equals == std::string_view::npos)
        return badly_written();
    const auto rest = typed.substr(equals + 1);
    const auto semicolon = rest.find(';');
    PalletDraft pallet;
    pallet.sscc = trimmed(rest.substr(0, semicolon));
    if (semicolon != std::string_view::npos) {
        auto weight = trimmed(rest.substr(semicolon + 1));
        if (lower_case(weight).ends_with("kg"))
            weight = trimmed(weight.substr(0, weight.size() - 2));
        pallet.kg = weight;
    }
    std::string lot(trimmed(typed.substr(0, equals)));
    if (lot.empty() || pallet.sscc.empty())
        return badly_written();
    return std::pair(std::move(lot), std::move(pallet));
}

void find_by_order(const Session& session, const app::App& app, DeliveryDraft& said) {
    const auto* expected = said.expected.empty() ? of_order(app.intake().expected, said.order, {}) : nullptr;
    if (!expected)
        return;
    said.expected = expected->code;
    say(session.world().err, "mellowbin: note: order {} is expected delivery {}\n", said.order,
        said.expected);
}

} // namespace mellowbin::cli
