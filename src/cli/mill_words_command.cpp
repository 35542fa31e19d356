#include "app/acts/certificates.h"
#include "app/acts/mill_words.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/plant.h"
#include "cli/certificate_command.h"
#include "cli/certificate_words.h"
#include "cli/grammar.h"
#include "core/typed_text.h"
#include "exchange/certificate_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <optional>
#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

MillId mill_of(const App& app, const std::string& name) {
    for (const auto& row : app.plant().of(PlantKind::mill))
        if (same_words(row.name, name))
            return MillId{row.record.number};
    throw Failed{fmt::format("Mill: \"{}\" is not in the book", name)};
}

struct MillWordsTyped {
    std::string mill;
    std::vector<std::string> meanings, forgotten;
};

std::vector<MillWordRow> words_of(const App& app, MillId mill) {
    std::vector<MillWordRow> rows;
    std::copy_if(app.plant().mill_words.begin(), app.plant().mill_words.end(), std::back_inserter(rows),
                 [&](const MillWordRow& row) { return row.word.mill == mill; });
    return rows;
}

const MillWord* word_of(const std::vector<MillWordRow>& rows, const std::string& words) {
    for (const auto& row : rows)
        if (row.word.word == exchange::folded(words) || same_words(row.shown, words))
            return &row.word;
    return nullptr;
}

MillWordChange change_to(const LabelSaid& said, const MillWord* before, MillId mill, std::string shown) {
    MillWord after;
    after.mill = mill;
    after.kind = MillWordKind::label;
    after.word = said.label;
    after.shown = before ? before->shown : std::move(shown);
    after.means = said.means;
    after.unit = said.unit;
    after.basis = said.basis;
    after.method = said.method;
    after.nitrogen_factor = said.nitrogen_factor;
    return {before ? std::optional(*before) : std::nullopt, after};
}

Result<ChangeMillWords> changes_of(const App& app, const MillWordsTyped& typed) {
    ChangeMillWords act{mill_of(app, typed.mill), {}};
    const auto rows = words_of(app, act.mill);
    Refusals refusals;
    for (const auto& words : typed.meanings) {
        const auto said = read_label_said(words);
        if (said)
            act.changes.push_back(
                change_to(*said, word_of(rows, said->label), act.mill, words.substr(0, words.find('='))));
        else
            append(refusals, said.refusals());
    }
    for (const auto& words : typed.forgotten) {
        if (const auto* word = word_of(rows, words))
            act.changes.push_back({*word, std::nullopt});
        else
            refusals.push_back({"--forget",
                                fmt::format("\"{}\" is no word of this mill that is known", words),
                                "See mellowbin mill-words"});
    }
    if (!refusals.empty())
        return refusals;
    return act;
}

int mill_words(Session& session, const MillWordsTyped& typed) {
    App app(session.set_up());
    const auto act = changes_of(app, typed);
    if (!act)
        return session.refused(act.refusals());
    if (!act->changes.empty()) {
        app.handle(*act);
        return session.told(app);
    }
    const auto rows = words_of(app, act->mill);
    if (session.wants_json())
        session.out() << mill_words_as_json(rows);
    else
        print_mill_words(session.out(), rows);
    return done;
}

struct SaveTyped {
    std::string lot, to;
};

int save_certificate(Session& session, const SaveTyped& typed) {
    App app(session.set_up());
    app.handle(SaveCertificateSource{lot_of(app, typed.lot), typed.to});
    return session.told(app);
}

} // namespace

void add_certificate_commands(Grammar& grammar) {
    auto words = grammar.command("mill-words", "What the words on a mill's certificates mean", mill_words);
    words.words.option("mill", words.typed.mill, "The mill's name").required();
    words.words.option("--map", words.typed.meanings, "From now on these words mean that; once for each")
        .one_at_a_time()
        .shown_as(fmt::format("\"{}\"", meaning_form));
    words.words.option("--forget", words.typed.forgotten, "Nothing is known of these words any more")
        .one_at_a_time();
    words.words.footer(
        "Without an option the words are listed. A meaning is a figure (protein), a fact of a lot (lot\n"
        "number), something the mill added (ascorbic acid), or: left out. Unit, basis and method are said\n"
        "where its papers do not print them:\n"
        "  --map \"Feuchtkleber=wet gluten; basis=14 %; method=ICC 155\"");
    auto save = grammar.command("save-certificate", "Save the certificate a lot came with, as it came",
                                save_certificate);
    save.words.option("lot", save.typed.lot, "Lot number, or MILL/LOT").required();
    save.words.option("--to", save.typed.to,
                      "A file that is not there yet, or a folder; otherwise beside the book");
}

} // namespace mellowbin::cli
