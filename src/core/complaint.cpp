#include "core/complaint.h"

#include "core/draft_reader.h"

namespace mellowbin {
namespace {

constexpr Bounds weights{0.001, 1'000'000, "kg"};

std::optional<Property> property_typed(std::string_view typed) {
    for (const auto& kind : all_properties())
        if (same_words(kind.name, typed) || kind.key == typed)
            return kind.property;
    return {};
}

void read_what_about(const ComplaintDraft& draft, Complaint& complaint, DraftReader& reader) {
    const auto property = trimmed(draft.property);
    complaint.subject = trimmed(draft.subject);
    if (!property.empty()) {
        complaint.property = property_typed(property);
        if (!complaint.property)
            reader.refuse("Property", fmt::format("\"{}\" is not known", excerpt(property)),
                          "Choose one that a laboratory reports, or say it as the subject");
    } else if (complaint.subject.empty()) {
        reader.refuse("Subject", "is empty, and no property is chosen",
                      "Say what it is about: a property, or a word such as bags, weight, papers");
    }
}

Day read_day_not_to_come(std::string_view field, const std::string& text, Day today, DraftReader& reader) {
    const Day day = reader.day(field, text).value_or(today);
    if (day > today)
        reader.refuse(field, fmt::format("{} was read, which is after today, {}", iso(day), iso(today)),
                      "Enter the day on which it was");
    return day;
}

} // namespace

std::string about_in_words(const Complaint& complaint) {
    if (!complaint.property)
        return complaint.subject;
    std::string words(traits(*complaint.property).name);
    return complaint.subject.empty() ? words : words + ": " + complaint.subject;
}

Result<Complaint> accept(const ComplaintDraft& draft, Day today) {
    DraftReader reader;
    Complaint complaint;
    read_what_about(draft, complaint, reader);
    complaint.words = trimmed(draft.words);
    if (complaint.words.empty())
        reader.refuse("Complaint", "is empty", "Say what is held against the mill, in a few words");
    if (const auto kg = reader.number("Weight", draft.kg, weights))
        complaint.affected = to_grams(Kilograms{*kg});
    complaint.noticed_on = read_day_not_to_come("Noticed on", draft.noticed_on, today, reader);
    if (!reader.refusals.empty())
        return reader.refusals;
    return complaint;
}

Result<ComplaintAnswer> accept(const ComplaintAnswerDraft& draft, const Complaint& complaint, Day today) {
    DraftReader reader;
    ComplaintAnswer answer;
    answer.words = trimmed(draft.words);
    if (answer.words.empty())
        reader.refuse("Answer", "is empty", "Say what the mill answered, in a few words");
    answer.answered_on = read_day_not_to_come("Answered on", draft.answered_on, today, reader);
    if (answer.answered_on < complaint.noticed_on)
        reader.refuse("Answered on",
                      fmt::format("{} was read, which is before it was noticed, {}", iso(answer.answered_on),
                                  iso(complaint.noticed_on)),
                      "Correct the day");
    if (!reader.refusals.empty())
        return reader.refusals;
    return answer;
}

} // namespace mellowbin
