// Numbered lists below a figure or on a page of their own: words beside their
// numbers, or ruled lines to write on.
#pragma once

#include <string>
#include <vector>

#include "compose/parts.hpp"

namespace platewright::compose {

struct ListEntry {
  int number = 0;         // 0: no number shown
  std::string text;
};

// A list set in as many equal columns as its longest entry allows, filled
// column by column. Heights in mm.
struct ListSetting {
  text::Font font;
  int columns = 1;
  double column_width = 0;
  double number_width = 0;
  double step = 0;              // from entry to entry
  double height = 0;            // of the whole list
  std::vector<std::vector<text::Line>> lines;  // of each entry
  std::vector<int> first_line;  // running line count before each entry in its column order
  int lines_per_column = 0;
};
ListSetting set_list(const std::vector<ListEntry>& entries, double width, const text::Font& font,
                     const std::string& language, const text::Typesetter& typesetter);
Group draw_list(const SheetInput& input, const std::vector<ListEntry>& entries,
                const ListSetting& setting, double x, double y);

// The entries of the labels that stand as numbers on the poster.
std::vector<ListEntry> key_entries(const Layout& layout);

// A shuffled word bank in a rounded frame, `width` wide; its height is returned by
// `bank_height`. Words are shuffled by `seed`; equal words appear once.
std::vector<std::string> bank_words(const Layout& layout, std::uint64_t seed);
double bank_height(const SheetInput& input, double width);
Group draw_bank(const SheetInput& input, double x, double y, double width);

// Pages of ruled lines for every label by number: blank, with the answer
// written in, or with letters to trace and room to copy them.
enum class Rows { blank, answered, trace };
std::vector<Page> row_pages(const SheetInput& input, Rows rows, std::string_view kind_name,
                            std::string_view instruction, std::string_view note, bool with_bank);

// Letters to trace so tall that a capital is `height` mm, on a baseline; returns their width.
double add_trace(Group& group, const SheetInput& input, std::string_view text, double x,
                 double baseline, double height);
double trace_width(const SheetInput& input, std::string_view text, double height);

}  // namespace platewright::compose
