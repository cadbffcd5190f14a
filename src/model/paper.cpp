#include "platewright/paper.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "base/nearest.hpp"
#include "base/number.hpp"
#include "base/quote.hpp"

namespace platewright {
namespace {

constexpr Length least_side = Length::mm(25);
constexpr Length largest_side = Length::in(200);  // PDF Reference 1.6, appendix C: 14,400 units

std::vector<Paper> make_papers() {
  std::vector<Paper> all;
  const auto mm = [&](const char* name, double w, double h, const char* standard) {
    all.push_back({name, Length::mm(w), Length::mm(h), standard});
  };
  const auto in = [&](const char* name, double w, double h, const char* standard) {
    all.push_back({name, Length::in(w), Length::in(h), standard});
  };
  mm("a0", 841, 1189, "ISO 216");
  mm("a1", 594, 841, "ISO 216");
  mm("a2", 420, 594, "ISO 216");
  mm("a3", 297, 420, "ISO 216");
  mm("a4", 210, 297, "ISO 216");
  mm("a5", 148, 210, "ISO 216");
  mm("a6", 105, 148, "ISO 216");
  mm("a7", 74, 105, "ISO 216");
  mm("a8", 52, 74, "ISO 216");
  mm("a9", 37, 52, "ISO 216");
  mm("a10", 26, 37, "ISO 216");
  mm("2a0", 1189, 1682, "DIN 476");
  mm("4a0", 1682, 2378, "DIN 476");
  mm("b0", 1000, 1414, "ISO 216");
  mm("b1", 707, 1000, "ISO 216");
  mm("b2", 500, 707, "ISO 216");
  mm("b3", 353, 500, "ISO 216");
  mm("b4", 250, 353, "ISO 216");
  mm("b5", 176, 250, "ISO 216");
  mm("b6", 125, 176, "ISO 216");
  mm("b7", 88, 125, "ISO 216");
  mm("b8", 62, 88, "ISO 216");
  mm("b9", 44, 62, "ISO 216");
  mm("b10", 31, 44, "ISO 216");
  mm("c2", 458, 648, "ISO 269");
  mm("c3", 324, 458, "ISO 269");
  mm("c4", 229, 324, "ISO 269");
  mm("c5", 162, 229, "ISO 269");
  mm("c6", 114, 162, "ISO 269");
  mm("c7", 81, 114, "ISO 269");
  mm("c8", 57, 81, "ISO 269");
  mm("dl", 110, 220, "ISO 269");
  mm("jis-b0", 1030, 1456, "JIS P 0138");
  mm("jis-b1", 728, 1030, "JIS P 0138");
  mm("jis-b2", 515, 728, "JIS P 0138");
  mm("jis-b3", 364, 515, "JIS P 0138");
  mm("jis-b4", 257, 364, "JIS P 0138");
  mm("jis-b5", 182, 257, "JIS P 0138");
  mm("jis-b6", 128, 182, "JIS P 0138");
  in("letter", 8.5, 11, "ASME Y14.1");
  in("tabloid", 11, 17, "ASME Y14.1");
  in("legal", 8.5, 14, "US customary");
  in("statement", 5.5, 8.5, "US customary");
  in("executive", 7.25, 10.5, "US customary");
  in("halfexecutive", 5.25, 7.25, "US customary");
  in("folio", 8.5, 13, "US customary");
  in("quarto", 610.0 / 72.0, 780.0 / 72.0, "US customary");
  in("10x14", 10, 14, "US customary");
  in("comm10", 4.125, 9.5, "US envelope");
  in("monarch", 3.875, 7.5, "US envelope");
  in("ansi-a", 8.5, 11, "ASME Y14.1");
  in("ansi-b", 11, 17, "ASME Y14.1");
  in("ansi-c", 17, 22, "ASME Y14.1");
  in("ansi-d", 22, 34, "ASME Y14.1");
  in("ansi-e", 34, 44, "ASME Y14.1");
  in("arch-a", 9, 12, "architectural");
  in("arch-b", 12, 18, "architectural");
  in("arch-c", 18, 24, "architectural");
  in("arch-d", 24, 36, "architectural");
  in("arch-e", 36, 48, "architectural");
  in("arch-e1", 30, 42, "architectural");
  return all;
}

// Other names that printers and Debian's libpaper use.
constexpr std::array<std::pair<std::string_view, std::string_view>, 9> further_names = {{
    {"note", "letter"},
    {"ledger", "tabloid"},
    {"11x17", "tabloid"},
    {"halfletter", "statement"},
    {"flsa", "folio"},
    {"flse", "folio"},
    {"csheet", "ansi-c"},
    {"dsheet", "ansi-d"},
    {"esheet", "ansi-e"},
}};

// Small letters and digits only: "Arch D", "arch_d" and "archD" are one name.
std::string bare(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c >= 'A' && c <= 'Z') out += static_cast<char>(c - 'A' + 'a');
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) out += c;
  }
  return out;
}

const Paper* find_named(std::string_view text) {
  std::string name = bare(text);
  if (name.starts_with("iso")) name.erase(0, 3);
  for (const auto& [further, meant] : further_names)
    if (bare(further) == name) name = bare(meant);
  for (const Paper& paper : papers())
    if (bare(paper.name) == name) return &paper;
  return nullptr;
}

// "18x24in", "18 in × 24 in": the two parts around the sign, when both begin
// like a number.
std::optional<std::pair<std::string_view, std::string_view>> split_sides(std::string_view text) {
  const auto digit = [](std::string_view t) {
    return !t.empty() && ((t.front() >= '0' && t.front() <= '9') || t.front() == '.' ||
                          t.front() == '-' || t.front() == '+');
  };
  for (const std::string_view sign : {"x", "X", "×", "*"}) {
    const std::size_t at = text.find(sign);
    if (at == std::string_view::npos) continue;
    const auto first = trimmed(text.substr(0, at));
    const auto second = trimmed(text.substr(at + sign.size()));
    if (digit(first) && digit(second)) return std::pair{first, second};
  }
  return std::nullopt;
}

Result<Paper> paper_of_sides(std::string_view text, std::string_view first,
                             std::string_view second) {
  const auto unreadable = [&](const Findings& why) {
    return error("paper-size", {}, "paper " + in_quotes(text) + ": " + why.front().message,
                 "write it as 18x24in or 300x400mm");
  };
  const Result<Length> height = parse_length(second);
  if (!height) return unreadable(height.findings());
  // A unit after the second number counts for both.
  const std::size_t unit = second.find_first_not_of("0123456789.eE+- ");
  const bool alone = parse_number(first).has_value();
  const Result<Length> width = parse_length(
      alone ? std::string(first) + std::string(second.substr(unit)) : std::string(first));
  if (!width) return unreadable(width.findings());
  for (const Length side : {*width, *height})
    if (side < least_side || side > largest_side)
      return error("paper-size", {},
                   "paper " + in_quotes(text) + " has a side of " + format_mm(side),
                   "a side is " + format_mm(least_side) + " to " + format_mm(largest_side));
  return Paper{format_number(width->mm(), 1) + "x" + format_number(height->mm(), 1) + "mm", *width,
               *height, ""};
}

}  // namespace

const std::vector<Paper>& papers() {
  static const std::vector<Paper> all = make_papers();
  return all;
}

Result<Paper> find_paper(std::string_view text) {
  const std::string_view asked = trimmed(text);
  if (const Paper* paper = find_named(asked)) return *paper;
  if (const auto sides = split_sides(asked))
    return paper_of_sides(asked, sides->first, sides->second);
  std::vector<std::string_view> names;
  for (const Paper& paper : papers()) names.push_back(paper.name);
  for (const auto& [further, meant] : further_names) names.push_back(further);
  const auto near = nearest(asked, names);
  return error("paper-unknown", {}, "there is no paper " + in_quotes(asked),
               near.empty()
                   ? "name one that `platewright papers` lists, or write a size such as 18x24in"
                   : "did you mean " + listed(near));
}

Paper oriented(const Paper& paper, Orientation orientation) {
  Paper turned = paper;
  const bool wide = paper.width > paper.height;
  if ((orientation == Orientation::portrait && wide) ||
      (orientation == Orientation::landscape && !wide))
    std::swap(turned.width, turned.height);
  return turned;
}

}  // namespace platewright
