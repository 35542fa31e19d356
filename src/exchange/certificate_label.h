#pragma once

#include "exchange/certificate_mapping.h"
#include "exchange/certificate_words.h"

#include <deque>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// How far a label is understood.
enum class LabelState {
    known,     ///< it means one thing
    ambiguous, ///< it may mean several
    partial,   ///< a word of it is known, and others stand beside
    left_out,  ///< known, and no field of a lot; or a person left it out
    of_grain,  ///< of the wheat, not of the flour
    not_known,
};

/// A label of a certificate, taken apart.
struct CertificateLabel {
    std::string text;   ///< as it stands
    std::string folded; ///< by which a mapping finds it
    LabelState state = LabelState::not_known;
    std::vector<std::string>
        means;        ///< keys: one where it is known, the choices where it is ambiguous or partial
    std::string unit; ///< as it stands in it
    std::string basis, method, nitrogen_factor;
    bool is_learned = false; ///< the mapping says it
    bool is_own = false;     ///< written as this program's own certificate files have it
};

/// Understands a label: by the mapping first, then as a head of the program's own files, then by its words.
CertificateLabel read_label(std::string_view text, const CertificateMapping& known);

/// Reads each label once.
class LabelBook {
public:
    explicit LabelBook(const CertificateMapping& known) : known_(known) {}
    /// The label's number in the book.
    std::size_t number_of(std::string_view text);
    [[nodiscard]] const CertificateLabel& at(std::size_t number) const { return labels_.at(number); }
    const CertificateLabel& read(std::string_view text) { return at(number_of(text)); }

private:
    const CertificateMapping& known_;
    std::deque<CertificateLabel> labels_; // so that a label stays where it is when others are read
    std::map<std::string, std::size_t, std::less<>> numbers_;
};

/// Whether a label stands there by which a value is understood or asked.
bool says_what(const CertificateLabel& label);

} // namespace mellowbin::exchange
