#include "read/style_values.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "base/nearest.hpp"
#include "base/number.hpp"
#include "base/quote.hpp"
#include "platewright/paper.hpp"

namespace platewright::read {
namespace {

constexpr std::size_t most_rows = 100;
constexpr std::size_t most_faces = 20;

// Writes one value; one overload for each kind of target.
struct Writer {
  const YamlNode& node;
  const std::string& what;
  double least;
  double most;
  Reading& reading;

  void wrong(const std::string& wanted, std::string advice) const {
    const std::string got = node.is_scalar() ? in_quotes(node.text) : "this";
    reading.error(node.place, "style-value", what + ": " + got + " is not " + wanted,
                  std::move(advice));
  }

  void out_of_range(const std::string& got, const std::string& low, const std::string& high) const {
    reading.error(node.place, "style-range", what + " is " + got,
                  "it may be " + low + " to " + high);
  }

  void operator()(Length* to) const {
    if (!node.is_scalar()) return wrong("a length", "write a number and a unit, such as 12 mm");
    const Result<Length> length = parse_length(node.text);
    if (!length) {
      const Finding& f = length.findings().front();
      reading.error(node.place, f.code, what + ": " + f.message, f.advice);
    } else if (length->mm() < least - 1e-9 || length->mm() > most + 1e-9) {
      out_of_range(escaped(trimmed(node.text)), format_mm(Length::mm(least), 3),
                   format_mm(Length::mm(most), 3));
    } else {
      *to = *length;
    }
  }

  // A paper's name, or WxH.
  void operator()(CardSize* to) const {
    if (!node.is_scalar()) return wrong("a size", "write a7, or 2.5x3.5in");
    const Result<Paper> size = find_paper(trimmed(node.text));
    if (!size) {
      const Finding& f = size.findings().front();
      reading.error(node.place, f.code, what + ": " + f.message, f.advice);
      return;
    }
    for (const Length side : {size->width, size->height})
      if (side.mm() < least - 1e-9 || side.mm() > most + 1e-9)
        return out_of_range(escaped(trimmed(node.text)), format_mm(Length::mm(least), 3),
                            format_mm(Length::mm(most), 3) + " on each side");
    *to = {size->width, size->height};
  }

  void operator()(double* to) const {
    const auto number = node.is_scalar() ? parse_number(trimmed(node.text)) : std::nullopt;
    if (!number) return wrong("a number", "write a plain number such as 1.2");
    if (*number < least || *number > most)
      return out_of_range(format_number(*number, 6), format_number(least), format_number(most));
    *to = *number;
  }

  void operator()(int* to) const {
    const auto number = node.is_scalar() ? parse_integer(trimmed(node.text)) : std::nullopt;
    if (!number) return wrong("a whole number", "write one such as 3");
    if (*number < least || *number > most)
      return out_of_range(std::to_string(*number), format_number(least), format_number(most));
    *to = *number;
  }

  void operator()(bool* to) const {
    const std::string_view text = node.text;
    if (text == "yes" || text == "true" || text == "on") {
      *to = true;
    } else if (text == "no" || text == "false" || text == "off") {
      *to = false;
    } else {
      wrong("yes or no", "write yes or no");
    }
  }

  void operator()(Colour* to) const {
    const Result<Colour> colour = parse_colour(node.text);
    if (colour) {
      *to = *colour;
      return;
    }
    // "#1a2b3c" without quotes is a comment to YAML, and the value is missing.
    const Finding& f = colour.findings().front();
    reading.error(node.place, f.code,
                  what + ": " + (node.is_scalar() ? f.message : "there is no colour"), f.advice);
  }

  void operator()(LeaderMark* to) const {
    std::vector<std::string_view> known;
    for (const LeaderMark mark :
         {LeaderMark::automatic, LeaderMark::dot, LeaderMark::arrowhead, LeaderMark::none}) {
      if (node.is_scalar() && node.text == name_of(mark)) {
        *to = mark;
        return;
      }
      known.push_back(name_of(mark));
    }
    wrong("a leader's mark", did_you_mean(node.text, known, "use " + listed(known)));
  }

  void operator()(std::string* to) const {
    if (!node.is_scalar() || trimmed(node.text).empty())
      return wrong("a name", "write the name of a typeface");
    *to = trimmed(node.text);
  }

  void operator()(std::vector<std::string>* to) const {
    if (!node.is_list() && !node.is_null()) return wrong("a list", "write [first, second]");
    if (node.items.size() > most_faces)
      return out_of_range(std::to_string(node.items.size()) + " names long", "0",
                          std::to_string(most_faces));
    std::vector<std::string> names;
    for (const YamlNode& item : node.items) {
      std::string name;
      Writer{item, what, least, most, reading}(&name);
      if (!name.empty()) names.push_back(std::move(name));
    }
    *to = std::move(names);
  }
};

Length published_floor(int years) { return Length::pt(years <= 6 ? 14 : years <= 10 ? 10 : 8); }

template <class Row>
const Row& row_for(const std::vector<Row>& rows, int years) {
  const auto found =
      std::find_if(rows.begin(), rows.end(), [&](const Row& r) { return years <= r.up_to; });
  return found == rows.end() ? rows.back() : *found;
}

// `youngest` of the readers whom the row is for.
void check_row(const AgeRow& row, int youngest, Place place, Reading& reading) {
  const std::string what = "row up-to " + std::to_string(row.up_to) + " of ages";
  const auto points = [](Length l) { return format_number(l.pt(), 2) + " pt"; };
  if (row.text_wanted < row.text_floor)
    reading.error(place, "style-range",
                  what + ": text-wanted " + points(row.text_wanted) + " is less than text-floor " +
                      points(row.text_floor),
                  "raise text-wanted or lower text-floor");
  const Length floor = published_floor(youngest);
  if (row.text_floor.mm() < floor.mm() - 1e-9)
    reading.warning(
        place, "text-floor-low",
        what + ": text-floor " + points(row.text_floor) + " is less than " + points(floor),
        "readers of " + std::to_string(youngest) + " need " + points(floor));
}

// A list of rows by age: `list` is its name; `check` sees each row whole, with the
// age of its youngest readers.
template <class Row, class Field, class Check>
void read_rows(const YamlNode& node, const std::string& list, const std::vector<Field>& row_fields,
               std::vector<Row>& old, Reading& reading, const Check& check) {
  if (!node.is_list() || node.items.empty() || node.items.size() > most_rows) {
    reading.error(node.place, "style-value",
                  list + " is not a list of 1 to " + std::to_string(most_rows) + " rows",
                  "write - {up-to: 6, ...} lines");
    return;
  }
  std::vector<Row> rows;
  for (const YamlNode& item : node.items) {
    const std::string what = "row " + std::to_string(rows.size() + 1) + " of " + list;
    // up-to first: it tells which row the missing keys come from.
    int up_to = -1;
    for (const YamlEntry& entry : item.entries)
      if (entry.key.text == "up-to" && up_to < 0)
        Writer{entry.value, what + ", up-to", 0, 150, reading}(&up_to);
    Row row = row_for(old, up_to);
    std::vector<YamlField> fields = {{"up-to", [](const YamlNode&) {}}};
    for (const Field& field : row_fields)
      fields.push_back({field.key, [&](const YamlNode& n) {
                          read_style_value(n, what + ", " + std::string(field.key),
                                           &(row.*field.member), field.least, field.most, reading);
                        }});
    const std::size_t faults = reading.findings.size();
    read_map(item, what, fields, reading);
    if (up_to < 0) {
      if (item.is_map() && reading.findings.size() == faults)
        reading.error(item.place, "style-value", what + " has no up-to",
                      "write the oldest age that it is for");
      continue;
    }
    row.up_to = up_to;
    if (!rows.empty() && rows.back().up_to >= up_to)
      reading.error(item.place, list + "-order",
                    what + " is up to " + std::to_string(up_to) + ", the row before it up to " +
                        std::to_string(rows.back().up_to),
                    "sort the rows from young to old");
    check(row, rows.empty() ? 0 : rows.back().up_to + 1, item.place);
    rows.push_back(row);
  }
  if (!rows.empty()) old = std::move(rows);
}

}  // namespace

void read_style_value(const YamlNode& node, const std::string& what, const StyleTarget& target,
                      double least, double most, Reading& reading) {
  std::visit(Writer{node, what, least, most, reading}, target);
}

void read_ages(const YamlNode& node, std::vector<AgeRow>& ages, Reading& reading) {
  read_rows(node, "ages", age_fields(), ages, reading,
            [&](const AgeRow& row, int youngest, Place place) {
              check_row(row, youngest, place, reading);
            });
}

void read_puzzles(const YamlNode& node, std::vector<PuzzleRow>& puzzles, Reading& reading) {
  read_rows(node, "puzzles", puzzle_fields(), puzzles, reading,
            [&](const PuzzleRow& row, int, Place place) {
              if (row.directions != 1 && row.directions != 2 && row.directions != 4 &&
                  row.directions != 8)
                reading.error(place, "style-range",
                              "row up-to " + std::to_string(row.up_to) + " of puzzles: directions " +
                                  std::to_string(row.directions) + " is none of 1, 2, 4 and 8",
                              "write 1 (across), 2 (and down), 4 (and aslant) or 8 (and backwards)");
            });
}

}  // namespace platewright::read
