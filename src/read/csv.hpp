// Comma separated values, RFC 4180, as spreadsheets really write them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "read/reading.hpp"

namespace platewright::read {

struct CsvField {
  std::string text;
  Place place;
};

using CsvRow = std::vector<CsvField>;

// The rows of `text` (valid UTF-8), empty ones left out; CR, LF and CRLF end a
// row. The separator is the one of comma, semicolon and tab that the first line
// has most of; a spreadsheet's own first line "sep=;" says so too and is left out.
// Errors: `csv-quote` for a quoted field that never ends or is followed by
// text; `csv-large` above `most_fields` or 8 MiB.
std::vector<CsvRow> parse_csv(std::string_view text, Reading& reading,
                              std::size_t most_fields = 400'000);

}  // namespace platewright::read
