#include "read/csv.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "base/quote.hpp"

namespace platewright::read {
namespace {

constexpr std::size_t most_bytes = 8u << 20;

char separator_of(std::string_view text) {
  std::array<std::pair<char, int>, 3> counts = {{{',', 0}, {';', 0}, {'\t', 0}}};
  bool inside_quotes = false;
  for (const char c : text) {
    if (c == '"') inside_quotes = !inside_quotes;
    if (inside_quotes) continue;
    if (c == '\n' || c == '\r') break;
    for (auto& [sign, count] : counts)
      if (c == sign) ++count;
  }
  return std::max_element(counts.begin(), counts.end(),
                          [](const auto& a, const auto& b) { return a.second < b.second; })
      ->first;
}

// Walks the text one character at a time and knows the place.
class Cursor {
 public:
  Cursor(std::string_view text, int first_line) : text_(text), place_{first_line, 1} {}
  bool done() const { return at_ >= text_.size(); }
  char peek() const { return done() ? '\0' : text_[at_]; }
  bool at_line_end() const { return peek() == '\n' || peek() == '\r'; }
  Place place() const { return place_; }
  char next() {
    const char c = text_[at_++];
    const bool middle_of_crlf = c == '\r' && peek() == '\n';
    if ((c == '\n' || c == '\r') && !middle_of_crlf) {
      ++place_.line;
      place_.column = 1;
    } else if ((static_cast<unsigned char>(c) & 0xc0U) != 0x80U) {
      ++place_.column;
    }
    return c;
  }
  void skip_line_end() {
    const char c = next();
    if (c == '\r' && peek() == '\n') next();
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
  Place place_;
};

// A quoted field, from its opening quote on.
std::string quoted_field(Cursor& cursor, char separator, Reading& reading) {
  const Place start = cursor.place();
  cursor.next();
  std::string out;
  for (;;) {
    if (cursor.done()) {
      reading.error(start, "csv-quote", "a quoted field never ends",
                    "close it with a quote; write a quote inside as two");
      return out;
    }
    const char c = cursor.next();
    if (c != '"') {
      out += c;
    } else if (cursor.peek() == '"') {
      out += cursor.next();
    } else {
      break;
    }
  }
  if (cursor.done() || cursor.at_line_end() || cursor.peek() == separator) return out;
  const Place after = cursor.place();
  std::string rest;
  while (!cursor.done() && !cursor.at_line_end() && cursor.peek() != separator)
    rest += cursor.next();
  if (!trimmed(rest).empty())
    reading.error(after, "csv-quote", "text follows a quoted field: " + in_quotes(rest, 20),
                  "write a quote inside a quoted field as two");
  return out;
}

}  // namespace

std::vector<CsvRow> parse_csv(std::string_view text, Reading& reading, std::size_t most_fields) {
  if (text.size() > most_bytes) {
    reading.error({}, "csv-large",
                  "the table has " + std::to_string(text.size()) + " bytes, more than " +
                      std::to_string(most_bytes),
                  "split it");
    return {};
  }
  int first_line = 1;
  char separator = '\0';
  const std::string_view first = text.substr(0, text.find_first_of("\r\n"));
  if (first.size() == 5 && first.starts_with("sep=")) {
    separator = first.back();
    text.remove_prefix(first.size());
    if (text.starts_with('\r')) text.remove_prefix(1);
    if (text.starts_with('\n')) text.remove_prefix(1);
    first_line = 2;
  }
  if (separator == '\0') separator = separator_of(text);
  Cursor cursor(text, first_line);
  std::vector<CsvRow> rows;
  std::size_t fields = 0;
  while (!cursor.done()) {
    CsvRow row;
    for (;;) {
      CsvField field{{}, cursor.place()};
      if (cursor.peek() == '"') {
        field.text = quoted_field(cursor, separator, reading);
      } else {
        while (!cursor.done() && !cursor.at_line_end() && cursor.peek() != separator)
          field.text += cursor.next();
      }
      row.push_back(std::move(field));
      if (++fields > most_fields) {
        reading.error(cursor.place(), "csv-large",
                      "the table has more than " + std::to_string(most_fields) + " fields",
                      "split it");
        return rows;
      }
      if (cursor.done() || cursor.at_line_end()) break;
      cursor.next();
    }
    if (!cursor.done()) cursor.skip_line_end();
    const bool empty = std::all_of(row.begin(), row.end(),
                                   [](const CsvField& f) { return trimmed(f.text).empty(); });
    if (!empty) rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace platewright::read
