// A style as text, for comparing: from the same table that it is read by.
#include <type_traits>

#include "base/number.hpp"
#include "read/read.hpp"
#include "read/style_fields.hpp"

namespace platewright::read {
namespace {

std::string value_text(const StyleTarget& target) {
  return std::visit(
      [](const auto* value) -> std::string {
        using T = std::remove_cvref_t<decltype(*value)>;
        if constexpr (std::is_same_v<T, Length>) {
          return format_number(value->mm(), 9);
        } else if constexpr (std::is_same_v<T, CardSize>) {
          return format_number(value->width.mm(), 9) + 'x' + format_number(value->height.mm(), 9);
        } else if constexpr (std::is_same_v<T, double>) {
          return format_number(*value, 9);
        } else if constexpr (std::is_same_v<T, int>) {
          return std::to_string(*value);
        } else if constexpr (std::is_same_v<T, bool>) {
          return *value ? "yes" : "no";
        } else if constexpr (std::is_same_v<T, Colour>) {
          return to_hex(*value);
        } else if constexpr (std::is_same_v<T, LeaderMark>) {
          return std::string(name_of(*value));
        } else if constexpr (std::is_same_v<T, std::string>) {
          return *value;
        } else {
          std::string all;
          for (const std::string& one : *value) all += one + '\n';
          return all;
        }
      },
      target);
}

}  // namespace

std::string style_text(const Style& style) {
  Style copy = style;  // the table's members are for writing
  std::string text;
  for (const StyleField& field : style_fields()) {
    text += field.section;
    text += ' ';
    text += field.key;
    text += ": " + value_text(field.target(copy)) + '\n';
  }
  for (const AgeRow& row : style.ages) {
    text += "up-to " + std::to_string(row.up_to);
    for (const AgeField& field : age_fields())
      text += ' ' + std::string(field.key) + ' ' + format_number((row.*field.member).mm(), 9);
    text += '\n';
  }
  for (const PuzzleRow& row : style.puzzles) {
    text += "puzzles";
    for (const int value : {row.up_to, row.grid, row.directions, row.words, row.bingo, row.missing,
                            row.maze})
      text += ' ' + std::to_string(value);
    text += '\n';
  }
  return text;
}

}  // namespace platewright::read
