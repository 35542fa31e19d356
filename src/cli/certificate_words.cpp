#include "cli/certificate_words.h"

#include "cli/json_parts.h"
#include "cli/say.h"
#include "cli/text_table.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::cli {
namespace {

using namespace app;

std::string or_dash(const std::string& words) { return words.empty() ? "-" : words; }

std::string with_factor(const std::string& method, const std::string& nitrogen_factor) {
    if (nitrogen_factor.empty())
        return or_dash(method);
    return (method.empty() ? "" : method + ", ") + "N x " + nitrogen_factor;
}

std::string joined(const std::vector<std::string>& words) {
    return fmt::format("{}", fmt::join(words, "; "));
}

ordered_json of(const Refusal& refusal) {
    return {{"field", refusal.field}, {"what", refusal.what}, {"remedy", refusal.remedy}};
}

ordered_json of(const CertificateRow& row) {
    return {{"lot", row.lot ? ordered_json(*row.lot) : ordered_json(nullptr)},
            {"where", row.where},
            {"label", row.shown},
            {"text", row.text},
            {"line", row.line},
            {"understood", row.name},
            {"value", row.value},
            {"unit", row.unit},
            {"basis", row.basis},
            {"method", row.method},
            {"nitrogen_factor", row.nitrogen_factor},
            {"note", row.note},
            {"asked", row.asked}};
}

ordered_json of(const CertificateAsked& asked) {
    return {{"question", asked.key},
            {"kind", asked.kind},
            {"where", asked.where},
            {"text", asked.text},
            {"words", asked.words},
            {"values", asked.times},
            {"answers", list_of(asked.choices, [](const CertificateAsked::Choice& choice) {
                 return ordered_json{{"answer", choice.key}, {"words", choice.words}};
             })}};
}

ordered_json of(const CertificateLotRow& lot) {
    return {{"where", lot.where},
            {"lot", lot.code},
            {"good", lot.is_good()},
            {"words", lot.words},
            {"refusals", list_of(lot.refusals, [](const Refusal& refusal) { return of(refusal); })}};
}

ordered_json of(const MillWordRow& row) {
    return {{"kind", std::string(key_of(row.word.kind))},
            {"words", row.shown},
            {"means", row.word.means},
            {"means_words", row.means},
            {"unit", row.word.unit},
            {"basis", row.word.basis},
            {"method", row.word.method},
            {"nitrogen_factor", row.word.nitrogen_factor},
            {"since", iso(row.word.since)},
            {"who", row.word.who}};
}

} // namespace

void print_certificate(std::ostream& out, const CertificateModel& certificate) {
    say(out, "{}{}\n", certificate.name,
        certificate.mill.empty() ? "" : ", by the words of " + certificate.mill);
    TextTable table({{"where", Side::left},
                     {"on the paper", Side::left},
                     {"there", Side::left},
                     {"understood", Side::left},
                     {"value", Side::right},
                     {"unit", Side::left},
                     {"basis", Side::left},
                     {"method", Side::left},
                     {"asked", Side::left}});
    for (const auto& row : certificate.rows)
        table.add({row.where, row.shown, or_dash(row.text), or_dash(row.name), or_dash(row.value),
                   or_dash(row.unit), or_dash(row.basis), with_factor(row.method, row.nitrogen_factor),
                   row.asked.empty() ? row.note : joined(row.asked)});
    table.print(out);
    for (const auto& label : certificate.labels)
        if (label.is_left_out)
            say(out, "Left out: {}, {} {}: {}\n", label.where, label.shown, label.text, label.note);
}

std::string certificate_as_json(const CertificateModel& certificate) {
    const auto all = [](const auto& rows) { return list_of(rows, [](const auto& row) { return of(row); }); };
    ordered_json json{{"certificate", certificate.name},       {"mill", certificate.mill},
                      {"troubles", all(certificate.troubles)}, {"lots", all(certificate.lots)},
                      {"values", all(certificate.rows)},       {"asked", all(certificate.asked)}};
    json["left_out"] = ordered_json::array();
    for (const auto& label : certificate.labels)
        if (label.is_left_out)
            json["left_out"].push_back(
                {{"where", label.where}, {"label", label.shown}, {"text", label.text}, {"why", label.note}});
    json["notes"] = certificate.notes;
    json["words_to_learn"] = certificate.to_learn;
    return as_document(json);
}

void print_mill_words(std::ostream& out, std::span<const MillWordRow> words) {
    if (words.empty()) {
        out << "No words of this mill are known yet: they are learned from the first certificate that is "
               "taken in.\n";
        return;
    }
    TextTable table({{"on its papers", Side::left},
                     {"means", Side::left},
                     {"unit", Side::left},
                     {"basis", Side::left},
                     {"method", Side::left},
                     {"since", Side::left}});
    for (const auto& row : words)
        table.add({row.shown, row.means, or_dash(row.word.unit), or_dash(row.word.basis),
                   with_factor(row.word.method, row.word.nitrogen_factor), row.since});
    table.print(out);
}

std::string mill_words_as_json(std::span<const MillWordRow> words) {
    return as_document(list_of(words, [](const MillWordRow& row) { return of(row); }));
}

} // namespace mellowbin::cli
