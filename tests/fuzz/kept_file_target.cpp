#include "exchange/kept_file.h"
#include "fuzz/target.h"

namespace mellowbin::fuzz {
namespace {

using namespace exchange;

void look_at(std::string_view bytes) {
    const auto file = read_kept_file(bytes);
    if (!file)
        return expect_well_said(file.refusals(), bytes);
    const auto again = read_kept_file(bytes_of(*file));
    expect(again && *again == *file, "kept work that is written reads back the same");
}

/// Its paths and texts cut out of the bytes, whatever these are.
KeptFile cut_from(std::string_view bytes) {
    KeptFile file;
    const auto take_part = [&] {
        const auto end = bytes.find('|');
        const std::string part(bytes.substr(0, end));
        bytes.remove_prefix(end == std::string_view::npos ? bytes.size() : end + 1);
        return part;
    };
    file.book = take_part();
    file.text.begun.push_back(take_part());
    while (!bytes.empty()) {
        auto path = take_part();
        file.text.fields[std::move(path)] = take_part();
    }
    return file;
}

void take(std::string_view bytes) {
    look_at(bytes);
    // Behind a last line that fits: no fuzzer guesses a fingerprint.
    auto whole = std::string(bytes);
    if (!whole.ends_with('\n'))
        whole += '\n';
    look_at(whole + "end\t" + fingerprint(whole) + "\n");
    const auto typed = cut_from(bytes);
    const auto read = read_kept_file(bytes_of(typed));
    expect(read && *read == typed, "whatever was typed comes back from its file");
}

const Registered target{"kept_file", take};

} // namespace
} // namespace mellowbin::fuzz
