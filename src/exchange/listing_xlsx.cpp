#include "exchange/listing_xlsx.h"

#include "core/listing.h"
#include "core/typed_text.h"
#include "exchange/packed_file.h"
#include "exchange/xml_walk.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <limits>
#include <map>
#include <memory>
#include <sstream>
#include <xlsxwriter.h>

namespace mellowbin::exchange {
namespace {

namespace fs = std::filesystem;

// Of the form, from memory; the library refuses beyond them, too.
constexpr std::size_t most_rows = 1'048'576;
constexpr std::size_t most_columns = 16'384;
constexpr std::size_t most_characters = 32'767; // of a cell
constexpr std::size_t longest_sheet_name = 31;
constexpr double widest = 60; // characters, of a column
constexpr std::size_t rows_a_word = 500;

constexpr Day first_serial_day{date::year{1900} / 3 / 1}; // before it serials count a day that never was
constexpr Day day_of_serial_0{date::year{1899} / 12 / 30};

Refusal not_written(std::string_view why) {
    return {"File", fmt::format("the spreadsheet could not be written whole: {}", why),
            "Make room on the disk, or name a file in another folder"};
}

/// Whole characters, at most so many; a byte that is no UTF-8 is a question mark, or no reader would open the
/// file.
std::string clean(std::string_view text, std::size_t most, std::string_view when_cut) {
    std::string whole;
    std::size_t characters = 0, end_of_cut = 0;
    while (!text.empty()) {
        if (++characters > most)
            return whole.substr(0, end_of_cut) + std::string(when_cut);
        if (characters == most)
            end_of_cut = whole.size();
        const auto length = character_length(text);
        if (length == 0 || text.front() == '\0')
            whole += '?';
        else
            whole += text.substr(0, length);
        text.remove_prefix(std::max<std::size_t>(1, length));
    }
    return whole;
}

std::size_t characters_in(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

struct Closes {
    void operator()(lxw_workbook* book) const { lxw_workbook_free(book); }
};

/// The formats of a workbook, each made once.
class Formats {
public:
    explicit Formats(lxw_workbook& book) : book_(book) {
        head_ = workbook_add_format(&book_);
        format_set_bold(head_);
        format_set_text_wrap(head_);
        day_ = with("yyyy\\-mm\\-dd");
        instant_ = with("yyyy\\-mm\\-dd hh:mm:ss");
    }
    [[nodiscard]] lxw_format* head() const { return head_; }
    [[nodiscard]] lxw_format* day() const { return day_; }
    [[nodiscard]] lxw_format* instant() const { return instant_; }
    lxw_format* decimals(int count) {
        auto& format = numbers_[count];
        if (!format)
            format = with(count > 0 ? "0." + std::string(static_cast<std::size_t>(count), '0') : "0");
        return format;
    }

private:
    lxw_format* with(const std::string& words) {
        auto* format = workbook_add_format(&book_);
        format_set_num_format(format, words.c_str());
        return format;
    }
    lxw_workbook& book_;
    lxw_format* head_ = nullptr;
    lxw_format* day_ = nullptr;
    lxw_format* instant_ = nullptr;
    std::map<int, lxw_format*> numbers_;
};

/// Puts cells into a sheet, row after row, and counts those with something in them.
class Cells {
public:
    Cells(lxw_worksheet& sheet, Formats& formats) : sheet_(sheet), formats_(formats) {}

    void put(std::size_t row, std::size_t column, const Listing::Column& of, const Listing::Cell& cell) {
        row_ = static_cast<lxw_row_t>(row);
        column_ = static_cast<lxw_col_t>(column);
        of_ = &of;
        std::visit(*this, cell);
    }
    void put_head(std::size_t row, std::size_t column, const std::string& words) {
        row_ = static_cast<lxw_row_t>(row);
        column_ = static_cast<lxw_col_t>(column);
        text(words, formats_.head());
    }

    void operator()(std::monostate) {}
    void operator()(const std::string& words) { text(words, nullptr); }
    void operator()(double value) {
        if (std::isfinite(value))
            number(value, formats_.decimals(of_->decimals));
    }
    void operator()(Day day) {
        if (day < first_serial_day)
            text(iso(day), nullptr);
        else
            number((day - day_of_serial_0).count(), formats_.day());
    }
    void operator()(Instant instant) {
        if (instant < first_serial_day)
            text(iso(instant), nullptr);
        else
            number(static_cast<double>((instant - Instant(day_of_serial_0)).count()) / 86'400,
                   formats_.instant());
    }

    [[nodiscard]] std::size_t cells() const { return cells_; }
    [[nodiscard]] lxw_error error() const { return error_; }

private:
    void text(const std::string& words, lxw_format* format) {
        if (words.empty())
            return;
        note(worksheet_write_string(&sheet_, row_, column_, clean(words, most_characters, "…").c_str(),
                                    format));
    }
    void number(double value, lxw_format* format) {
        note(worksheet_write_number(&sheet_, row_, column_, value, format));
    }
    void note(lxw_error error) {
        ++cells_;
        if (error != LXW_NO_ERROR && error_ == LXW_NO_ERROR)
            error_ = error;
    }

    lxw_worksheet& sheet_;
    Formats& formats_;
    lxw_row_t row_ = 0;
    lxw_col_t column_ = 0;
    const Listing::Column* of_ = nullptr;
    std::size_t cells_ = 0;
    lxw_error error_ = LXW_NO_ERROR;
};

/// By the head and the first rows: a person may widen it.
void set_widths(lxw_worksheet& sheet, const Listing& listing) {
    constexpr std::size_t rows_looked_at = 200;
    for (std::size_t c = 0; c < listing.columns.size(); ++c) {
        auto longest = characters_in(head_of(listing.columns[c])) + 3; // the arrow of the filter
        for (std::size_t r = 0; r < std::min(rows_looked_at, listing.rows.size()); ++r)
            longest = std::max(longest, characters_in(in_words(listing.columns[c], listing.rows[r][c])));
        const auto column = static_cast<lxw_col_t>(c);
        worksheet_set_column(&sheet, column, column, std::min(widest, static_cast<double>(longest) + 1),
                             nullptr);
    }
}

/// The cells that were put; nothing where it was stopped.
std::optional<std::size_t> put_list(Cells& into, const Listing& listing, const ListingWait& wait) {
    for (std::size_t c = 0; c < listing.columns.size(); ++c)
        into.put_head(0, c, head_of(listing.columns[c]));
    for (std::size_t r = 0; r < listing.rows.size(); ++r) {
        if (r % rows_a_word == 0) {
            if (wait.stop.stop_requested())
                return {};
            if (wait.share_done)
                wait.share_done(0.5 * static_cast<double>(r) / static_cast<double>(listing.rows.size()));
        }
        promised(listing.rows[r].size() == listing.columns.size());
        for (std::size_t c = 0; c < listing.columns.size(); ++c)
            into.put(r + 1, c, listing.columns[c], listing.rows[r][c]);
    }
    return into.cells();
}

void put_about(Cells& into, const Listing& listing) {
    into.put_head(0, 0, listing.title);
    const Listing::Column words;
    for (std::size_t n = 0; n < listing.notes.size(); ++n)
        into.put(n + 1, 0, words, listing.notes[n]);
}

/// Counts what a sheet's part holds.
struct Counted final : XmlListener {
    void begin(std::string_view element, const XmlAttributes&) override {
        cells += element == "c" ? 1 : 0;
        rows += element == "row" ? 1 : 0;
    }
    void text(std::string_view) override {}
    void end(std::string_view) override {}
    std::size_t cells = 0, rows = 0;
};

std::string bytes_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream bytes;
    bytes << in.rdbuf();
    return in.bad() ? std::string() : bytes.str();
}

/// What lies under the name is the list: whole by its check sums, well formed, with every row and cell.
Result<Done> read_back(const fs::path& file, std::size_t rows, std::size_t cells) {
    const auto bytes = bytes_of(file);
    SheetLimits limits;
    limits.file_bytes = limits.unpacked_bytes = std::numeric_limits<std::uint32_t>::max();
    limits.unpacked_ratio = 2'000; // ours, and equal rows pack well
    const auto packed = PackedFile::open(bytes, limits);
    if (!packed)
        return packed.refusals();
    const auto* part = packed->find("xl/worksheets/sheet1.xml");
    if (!part)
        return not_written("its list is not there");
    const auto xml = packed->unpacked(*part);
    if (!xml)
        return xml.refusals();
    Counted counted;
    if (const auto walked = walk_xml(*xml, counted); !walked)
        return walked.refusals();
    if (counted.rows != rows || counted.cells != cells)
        return not_written(fmt::format("{} of {} rows arrived", counted.rows, rows));
    return Done{};
}

} // namespace

std::string legal_sheet_name(std::string_view name) {
    std::string legal = clean(name, longest_sheet_name, "");
    std::replace_if(
        legal.begin(), legal.end(),
        [](char c) { return std::string_view("[]:*?/\\").find(c) != std::string_view::npos; }, ' ');
    const auto first = legal.find_first_not_of("' ");
    legal = first == std::string::npos ? "" : legal.substr(first, legal.find_last_not_of("' ") - first + 1);
    if (legal.empty())
        return "List";
    return lower_case(legal) == "history" ? legal + " list" : legal;
}

Result<Written> write_listing_xlsx(const Listing& listing, const fs::path& file, const ListingWait& wait) {
    if (listing.rows.size() + 1 > most_rows || listing.columns.size() > most_columns)
        return Refusal{
            "List", fmt::format("has {} rows; a sheet has room for {}", listing.rows.size(), most_rows - 1),
            "Save it as CSV, or a part of it"};
    lxw_workbook_options row_by_row{};
    row_by_row.constant_memory = LXW_TRUE;
    lxw_workbook* book = workbook_new_opt(file.c_str(), &row_by_row);
    if (!book)
        return not_written("no memory for it");
    std::unique_ptr<lxw_workbook, Closes> owned(book);
    auto* sheet = workbook_add_worksheet(book, legal_sheet_name(listing.name).c_str());
    auto* about = workbook_add_worksheet(book, "About");
    if (!sheet || !about)
        return not_written("a temporary file could not be made");
    Formats formats(*book);
    worksheet_freeze_panes(sheet, 1, 0);
    set_widths(*sheet, listing);
    if (!listing.columns.empty())
        worksheet_autofilter(sheet, 0, 0, static_cast<lxw_row_t>(listing.rows.size()),
                             static_cast<lxw_col_t>(listing.columns.size() - 1));
    Cells into(*sheet, formats), into_about(*about, formats);
    const auto cells = put_list(into, listing, wait);
    if (!cells)
        return Written::stopped;
    put_about(into_about, listing);
    for (const auto error : {into.error(), into_about.error()})
        if (error != LXW_NO_ERROR)
            return not_written(lxw_strerror(error));
    if (const auto error = workbook_close(owned.release()); error != LXW_NO_ERROR) // frees it, too
        return not_written(lxw_strerror(error));
    if (wait.share_done)
        wait.share_done(0.8);
    if (const auto arrived = read_back(file, listing.rows.size() + 1, *cells); !arrived)
        return not_written(in_words(arrived.refusals().front()));
    if (wait.share_done)
        wait.share_done(1);
    return Written::whole;
}

} // namespace mellowbin::exchange
