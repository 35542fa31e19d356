#pragma once

#include "exchange/certificate_sheet.h"

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
    explicit QuestionBook(std::span<const CertificateAnswer> answers) : answers_(answers) {}

    [[nodiscard]] std::optional<std::string> answer(std::string_view key) const;
    /// Asks, or counts one more value that waits for what is asked already.
    void ask(CertificateQuestion question);
    [[nodiscard]] std::vector<CertificateQuestion> taken() { return std::move(questions_); }
    [[nodiscard]] const CertificateQuestion* find(std::string_view key) const;

private:
    std::span<const CertificateAnswer> answers_;
    std::vector<CertificateQuestion> questions_;
};

/// The mapping with what the answers say of labels, names and ways of writing.
CertificateMapping with_answers(CertificateMapping known, std::span<const CertificateAnswer> answers);

} // namespace mellowbin::exchange
