#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

#include "base/nearest.hpp"
#include "base/number.hpp"
#include "base/quote.hpp"
#include "read/terms_table.hpp"

namespace platewright::read {
namespace {

constexpr std::size_t most_points = 100;
constexpr double largest_coordinate = 1e7;

struct Table {
  Terms terms;
  Reading& reading;
  const Limits& limits;
};

TextBySet read_text_by_set(const YamlNode& node, std::string_view what, Table& table) {
  return text_by_set(node, what, table.terms.sets, table.reading, table.limits);
}

// "text", {text: .., or: [..]} or [first, further, ...].
Wording read_cell(const YamlNode& node, const std::string& what, Table& table) {
  std::vector<std::pair<std::string, Place>> texts;
  const auto add = [&](const YamlNode& n) {
    texts.emplace_back(read_text(n, what, table.reading), n.place);
  };
  const auto add_all = [&](const YamlNode& n) {
    if (!n.is_list()) return add(n);
    for (const YamlNode& item : n.items) add(item);
  };
  if (!node.is_map()) {
    add_all(node);
    return wording(texts, what, table.reading, table.limits);
  }
  std::vector<std::pair<std::string, Place>> further;
  const std::array<YamlField, 2> fields = {{
      {"text", add},
      {"or",
       [&](const YamlNode& n) {
         std::swap(texts, further);
         add_all(n);
         std::swap(texts, further);
       }},
  }};
  read_map(node, what, fields, table.reading);
  if (texts.empty() && !further.empty())
    table.reading.error(node.place, "label-text", what + " has other wordings but no text",
                        "write {text: ..., or: [...]}");
  texts.insert(texts.end(), further.begin(), further.end());
  return wording(texts, what, table.reading, table.limits);
}

void read_term(const YamlNode& key, const YamlNode& node, Table& table) {
  if (!check_anchor_name(key.text, key.place, table.reading)) return;
  Term term;
  term.anchor = key.text;
  term.declared = table.reading.at(key.place);
  const std::string what = "term " + in_quotes(key.text);
  if (!node.is_map() && !node.is_null()) {
    table.reading.error(node.place, "term-shape", what + " is not a map of sets to texts",
                        "write " + key.text + ": {SET: text}");
    return;
  }
  std::vector<YamlField> fields;
  for (const LabelSet& set : table.terms.sets)
    fields.push_back({set.name, [&table, &term, &set](const YamlNode& n) {
                        Wording cell = read_cell(
                            n, "label " + in_quotes(term.anchor) + " of set " + in_quotes(set.name),
                            table);
                        if (!cell.text.empty()) term.cells[set.name] = std::move(cell);
                      }});
  const auto by_set = [&](std::string_view name, TextBySet Term::*member) {
    fields.push_back({name, [&table, &term, name, member, &what](const YamlNode& n) {
                        term.*member =
                            read_text_by_set(n, std::string(name) + " of " + what, table);
                      }});
  };
  by_set("clue", &Term::clue);
  by_set("group", &Term::group);
  by_set("pronunciation", &Term::pronunciation);
  fields.push_back({"side", [&](const YamlNode& n) {
                      term.side = preferred_side(read_text(n, "side", table.reading), n.place,
                                                 table.reading);
                    }});
  fields.push_back({"inside", [&](const YamlNode& n) {
                      term.inside = inside_wish(read_text(n, "inside", table.reading), n.place,
                                                table.reading);
                    }});
  if (node.is_map()) read_map(node, what, fields, table.reading);
  table.terms.terms.push_back(std::move(term));
}

std::optional<FigurePoint> read_point(const YamlNode& node, Reading& reading) {
  if (!node.is_list() || node.items.size() != 2) {
    reading.error(node.place, "anchor-point", "a point is not two numbers",
                  "write [x, y] in units of the figure's viewBox");
    return std::nullopt;
  }
  std::array<double, 2> xy{};
  bool good = true;
  for (std::size_t i = 0; i < 2; ++i) {
    const YamlNode& item = node.items[i];
    const auto number = item.is_scalar() ? parse_number(item.text) : std::nullopt;
    if (number && std::abs(*number) <= largest_coordinate) {
      xy[i] = *number;
      continue;
    }
    good = false;
    reading.error(item.place, "anchor-number",
                  in_quotes(item.text) + " is not a number between -10000000 and 10000000",
                  "write plain viewBox units without a unit, such as 212.5");
  }
  return good ? std::optional(FigurePoint{xy[0], xy[1]}) : std::nullopt;
}

void read_at(const YamlNode& node, AddedAnchor& anchor, Reading& reading) {
  const bool several = node.is_list() && !node.items.empty() && node.items.front().is_list();
  if (!several) {
    if (const auto point = read_point(node, reading)) anchor.at.push_back(*point);
    return;
  }
  if (node.items.size() > most_points) {
    reading.error(node.place, "anchor-point",
                  "anchor " + in_quotes(anchor.name) + " has " + std::to_string(node.items.size()) +
                      " points, more than " + std::to_string(most_points),
                  "make several anchors of it");
    return;
  }
  for (const YamlNode& item : node.items)
    if (const auto point = read_point(item, reading)) anchor.at.push_back(*point);
}

void read_anchor(const YamlNode& key, const YamlNode& node, Table& table) {
  Reading& reading = table.reading;
  if (!check_anchor_name(key.text, key.place, reading)) return;
  AddedAnchor anchor;
  anchor.name = key.text;
  anchor.declared = reading.at(key.place);
  bool has_at = false, has_region = false;
  const std::array<YamlField, 2> fields = {{
      {"at",
       [&](const YamlNode& n) {
         has_at = true;
         read_at(n, anchor, reading);
       }},
      {"region",
       [&](const YamlNode& n) {
         has_region = true;
         anchor.region = trimmed(read_text(n, "region", reading));
         if (anchor.region.empty())
           reading.error(n.place, "anchor-shape",
                         "the region of anchor " + in_quotes(anchor.name) + " is empty",
                         "write the id of a shape in the figure");
       }},
  }};
  const std::string what = "anchor " + in_quotes(key.text);
  read_map(node, what, fields, reading);
  if (!node.is_map()) return;
  if (has_at == has_region)
    reading.error(key.place, "anchor-shape",
                  what + (has_at ? " has both a point and a region" : " has no place"),
                  "write either {at: [x, y]} or {region: ID}");
  if (has_at != has_region && (!anchor.at.empty() || !anchor.region.empty()))
    table.terms.added.push_back(std::move(anchor));
}

}  // namespace

Terms terms_from_yaml(std::string_view text, const std::vector<LabelSet>& given, Reading& reading,
                      const Limits& limits) {
  const YamlNode root = parse_yaml(text, reading);
  if (has_error(reading.findings)) return {};
  if (!root.is_map()) {
    reading.error(
        root.place, "terms-shape",
        root.is_null() ? "the file is empty" : "the file is not a table of terms",
        "write sets: and terms:, or start from `platewright anchors FIGURE --starter FILE`");
    return {};
  }
  Table table{{}, reading, limits};
  Terms& terms = table.terms;
  // Sets first, wherever they stand: terms name them.
  const YamlNode* sets = nullptr;
  const YamlNode* rows = nullptr;
  for (const YamlEntry& entry : root.entries) {
    if (entry.key.text == "sets" && sets == nullptr) sets = &entry.value;
    if (entry.key.text == "terms" && rows == nullptr) rows = &entry.value;
  }
  if (sets != nullptr && !sets->is_null()) terms.sets = read_sets(*sets, given, reading);
  if (terms.sets.empty() && (sets == nullptr || sets->is_null() || sets->is_map()))
    reading.error(sets != nullptr ? sets->place : root.place, "sets-missing",
                  "the file declares no set of labels",
                  "add sets: {middle: {ages: 7-10, language: en}}");
  const auto line_of_text = [&](std::string_view what, std::string Terms::*member) {
    return [&, what, member](const YamlNode& n) {
      terms.*member = clean_text(read_text(n, what, reading), n.place, what, reading, limits);
    };
  };
  const std::array<YamlField, 9> fields = {{
      {"figure", line_of_text("figure", &Terms::figure)},
      {"title", [&](const YamlNode& n) { terms.title = read_text_by_set(n, "title", table); }},
      {"credit", line_of_text("credit", &Terms::credit)},
      {"licence", line_of_text("licence", &Terms::licence)},
      {"note", [&](const YamlNode& n) { terms.note = read_text_by_set(n, "note", table); }},
      {"sets", [](const YamlNode&) {}},
      {"route",
       [&](const YamlNode& n) {
         if (n.is_null()) return;
         if (!n.is_list() || n.items.size() < 2 || n.items.size() > most_points) {
           reading.error(n.place, "route-shape", "route is not a list of 2 to 100 anchors",
                         "write route: [FIRST, SECOND]");
           return;
         }
         for (const YamlNode& item : n.items) {
           const std::string name(trimmed(read_text(item, "route", reading)));
           const bool known =
               rows != nullptr && rows->is_map() &&
               std::any_of(rows->entries.begin(), rows->entries.end(),
                           [&](const YamlEntry& row) { return row.key.text == name; });
           const bool twice =
               std::find(terms.route.begin(), terms.route.end(), name) != terms.route.end();
           if (!known)
             reading.error(item.place, "route-unknown",
                           "the route passes " + in_quotes(name) + ", which no row names",
                           "write the anchor of a row of terms");
           else if (twice)
             reading.error(item.place, "route-unknown",
                           "the route passes " + in_quotes(name) + " twice", "name it once");
           else
             terms.route.push_back(name);
         }
       }},
      {"terms",
       [&](const YamlNode& n) {
         if (n.is_null()) return;
         read_named(
             n, "terms", "anchor-duplicate",
             [&](const YamlNode& key, const YamlNode& value) { read_term(key, value, table); },
             reading);
       }},
      {"anchors",
       [&](const YamlNode& n) {
         if (n.is_null()) return;
         read_named(
             n, "anchors", "anchor-duplicate",
             [&](const YamlNode& key, const YamlNode& value) { read_anchor(key, value, table); },
             reading);
       }},
  }};
  read_map(root, "the terms file", fields, reading);
  if (rows == nullptr || rows->is_null() || (rows->is_map() && rows->entries.empty()))
    reading.error(rows != nullptr ? rows->place : root.place, "terms-missing",
                  "the file has no terms", "add terms: {ANCHOR: {SET: text}}");
  return std::move(table.terms);
}

}  // namespace platewright::read
