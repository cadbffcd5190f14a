// What a style file says, section by section.
#include <algorithm>
#include <string>
#include <vector>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "platewright/colour.hpp"
#include "read/style_values.hpp"
#include "read/terms_table.hpp"

namespace platewright::read {
namespace {

void read_section(const YamlNode& node, std::string_view section, Style& style, Reading& reading) {
  std::vector<YamlField> fields;
  for (const StyleField& field : style_fields()) {
    if (field.section != section) continue;
    fields.push_back({field.key, [&style, &reading, &field](const YamlNode& n) {
                        read_style_value(n,
                                         std::string(field.section) + ", " + std::string(field.key),
                                         field.target(style), field.least, field.most, reading);
                      }});
  }
  read_map(node, "section " + in_quotes(section), fields, reading);
}

void check_contrast(const Style& style, Reading& reading) {
  const auto check = [&](std::string_view what, Colour colour, double least) {
    const double ratio = contrast(colour, style.page.background);
    if (ratio < least)
      reading.warning({}, "contrast-low",
                      std::string(what) + ' ' + to_hex(colour) + " on the page's " +
                          to_hex(style.page.background) + " has a contrast of " +
                          format_number(ratio, 2),
                      "take at least " + format_number(least, 1) + " (WCAG 2.2)");
  };
  check("type ink", style.type.ink, 4.5);
  check("type quiet-ink", style.type.quiet_ink, 4.5);
  check("leader colour", style.leader.colour, 3.0);
}

}  // namespace

void apply_style(const YamlNode& root, Style& style, Reading& reading) {
  std::vector<YamlField> fields = {
      {"extends", [](const YamlNode&) {}},
      {"description",
       [&](const YamlNode& n) {
         style.description = trimmed(read_text(n, "description", reading));
       }},
      {"ages", [&](const YamlNode& n) { read_ages(n, style.ages, reading); }},
      {"puzzles", [&](const YamlNode& n) { read_puzzles(n, style.puzzles, reading); }},
      {"sets", [&](const YamlNode& n) { style.sets = read_sets(n, {}, reading); }},
  };
  for (const StyleField& field : style_fields()) {
    const auto known = std::find_if(fields.begin(), fields.end(),
                                    [&](const YamlField& f) { return f.key == field.section; });
    if (known == fields.end())
      fields.push_back(
          {field.section, [&style, &reading, section = field.section](const YamlNode& n) {
             if (!n.is_null()) read_section(n, section, style, reading);
           }});
  }
  read_map(root, "the style", fields, reading);
  if (style.leader.widest_gutter < style.leader.gutter)
    reading.error({}, "style-range",
                  "leader, widest-gutter " + format_mm(style.leader.widest_gutter) +
                      " is less than gutter " + format_mm(style.leader.gutter),
                  "raise widest-gutter or lower gutter");
  check_contrast(style, reading);
}

}  // namespace platewright::read
