#pragma once

#include "exchange/certificate_sheet.h"

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// "basis:protein n x 5 7": the key of a question about a label or a word.
std::string question_key(QuestionKind kind, std::string_view about);

/// Questions of a reading, each once, and the answers that were given.
class QuestionBook {
public:
    explicit QuestionBook(std::span<const CertificateAnswer> answers);

    [[nodiscard]] std::optional<std::string> answer(std::string_view key) const;
    /// Asks, or counts one more value that waits for what is asked already.
    void ask(CertificateQuestion question);
    [[nodiscard]] std::vector<CertificateQuestion> taken() { return std::move(questions_); }

private:
    std::map<std::string, std::string, std::less<>> answers_;
    std::vector<CertificateQuestion> questions_;
    std::map<std::string, std::size_t, std::less<>> places_; ///< of each question, by its key
};

/// The mapping with what the answers say of labels, names and ways of writing.
CertificateMapping with_answers(CertificateMapping known, std::span<const CertificateAnswer> answers);

} // namespace mellowbin::exchange
