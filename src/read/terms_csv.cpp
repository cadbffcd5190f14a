#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <utility>

#include "base/nearest.hpp"
#include "base/quote.hpp"
#include "read/csv.hpp"
#include "read/terms_table.hpp"

namespace platewright::read {
namespace {

enum class Meaning { anchor, set, clue, group, pronunciation, side, inside, nothing };

struct ColumnHead {
  Meaning meaning = Meaning::nothing;
  std::string name;  // of the set
  std::string key;   // of a text by set or language; empty: everywhere
  std::string title;
};

constexpr std::array<std::pair<std::string_view, Meaning>, 6> column_meanings = {{
    {"anchor", Meaning::anchor},
    {"clue", Meaning::clue},
    {"group", Meaning::group},
    {"pronunciation", Meaning::pronunciation},
    {"side", Meaning::side},
    {"inside", Meaning::inside},
}};

bool has_keys(Meaning m) {
  return m == Meaning::clue || m == Meaning::group || m == Meaning::pronunciation;
}

// "clue:de" and "clue.de" into "clue" and "de".
std::pair<std::string_view, std::string_view> split_key(std::string_view title) {
  const std::size_t at = title.find_first_of(":.");
  if (at == std::string_view::npos) return {title, {}};
  return {title.substr(0, at), title.substr(at + 1)};
}

// A set's column may be called like nothing else, so what is no column of the
// table's own is a set.
std::vector<ColumnHead> read_header(const CsvRow& header, Terms& terms, Reading& reading) {
  std::vector<ColumnHead> heads;
  std::map<std::string, Place> seen;
  for (const CsvField& field : header) {
    ColumnHead head;
    head.title = trimmed(field.text);
    const auto [first, fresh] = seen.emplace(head.title, field.place);
    if (head.title.empty()) {
      reading.error(field.place, "csv-header", "a column has no heading",
                    "name it, or delete the column");
    } else if (!fresh) {
      Finding* const finding = reading.error(field.place, "key-duplicate",
                                             "column " + in_quotes(head.title) + " is there twice",
                                             "remove or rename one");
      if (finding) finding->notes.push_back({reading.at(first->second), "first used here"});
    } else {
      const auto [name, key] = split_key(head.title);
      for (const auto& [known, meaning] : column_meanings)
        if (known == name && (key.empty() || has_keys(meaning))) head.meaning = meaning;
      if (head.meaning == Meaning::nothing) {
        std::vector<std::string_view> names;
        for (const auto& [known, meaning] : column_meanings) names.push_back(known);
        const auto near = nearest(name, names, 1);
        if (!near.empty()) {
          reading.error(field.place, "csv-header", "unknown column " + in_quotes(head.title),
                        "did you mean " + in_quotes(near.front()) + "; if not, rename the set");
        } else if (check_set_name(head.title, field.place, reading)) {
          head.meaning = Meaning::set;
          head.name = head.title;
          LabelSet set;
          set.name = head.name;
          set.declared = reading.at(field.place);
          terms.sets.push_back(std::move(set));
        }
      }
      head.key = key;
    }
    heads.push_back(std::move(head));
  }
  check_set_count(terms.sets, header.front().place, reading);
  // Keys may name sets of later columns.
  for (std::size_t i = 0; i < heads.size(); ++i) {
    if (heads[i].key.empty() || !has_keys(heads[i].meaning)) continue;
    auto key = text_key(heads[i].key, header[i].place, terms.sets,
                        "column " + in_quotes(heads[i].title), reading);
    if (key)
      heads[i].key = *std::move(key);
    else
      heads[i].meaning = Meaning::nothing;
  }
  return heads;
}

void check_width(const CsvRow& row, std::size_t columns, Reading& reading) {
  std::size_t used = row.size();
  while (used > columns && trimmed(row[used - 1].text).empty()) --used;
  const std::string counts =
      "this row has " + std::to_string(used) + " fields, the header has " + std::to_string(columns);
  if (used > columns)
    reading.error(row[columns].place, "csv-ragged", counts,
                  "put a text that has the separator in it in quotes");
  else if (row.size() < columns)
    reading.warning(row.front().place, "csv-ragged", counts,
                    "the missing ones are taken as empty; add separators");
}

// "Left ventricle | L. ventricle": the first is the text, others may stand in.
Wording read_cell(const CsvField& field, const std::string& what, Reading& reading,
                  const Limits& limits) {
  constexpr std::string_view bar = " | ";
  std::vector<std::pair<std::string, Place>> texts;
  std::string_view rest = field.text;
  for (;;) {
    const std::size_t at = rest.find(bar);
    texts.emplace_back(rest.substr(0, at), field.place);
    if (at == std::string_view::npos) break;
    rest.remove_prefix(at + bar.size());
  }
  return wording(texts, what, reading, limits);
}

Term read_row(const CsvRow& row, const std::vector<ColumnHead>& heads, const CsvField& anchor,
              Reading& reading, const Limits& limits) {
  Term term;
  term.anchor = trimmed(anchor.text);
  term.declared = reading.at(anchor.place);
  for (std::size_t i = 0; i < std::min(row.size(), heads.size()); ++i) {
    const ColumnHead& head = heads[i];
    const CsvField& field = row[i];
    const auto text = [&] {
      return clean_text(field.text, field.place, head.title + " of term " + in_quotes(term.anchor),
                        reading, limits);
    };
    const auto put = [&](TextBySet& by_set) {
      if (std::string t = text(); !t.empty())
        (head.key.empty() ? by_set.everywhere : by_set.by[head.key]) = std::move(t);
    };
    switch (head.meaning) {
      case Meaning::set: {
        Wording cell =
            read_cell(field, "label " + in_quotes(term.anchor) + " of set " + in_quotes(head.name),
                      reading, limits);
        if (!cell.text.empty()) term.cells[head.name] = std::move(cell);
        break;
      }
      case Meaning::clue:
        put(term.clue);
        break;
      case Meaning::group:
        put(term.group);
        break;
      case Meaning::pronunciation:
        put(term.pronunciation);
        break;
      case Meaning::side:
        term.side = preferred_side(text(), field.place, reading);
        break;
      case Meaning::inside:
        term.inside = inside_wish(text(), field.place, reading);
        break;
      case Meaning::anchor:
      case Meaning::nothing:
        break;
    }
  }
  return term;
}

}  // namespace

Terms terms_from_csv(std::string_view text, Reading& reading, const Limits& limits) {
  Terms terms;
  const std::vector<CsvRow> rows = parse_csv(text, reading);
  if (rows.empty() && !has_error(reading.findings)) {
    reading.error({1, 1}, "terms-shape", "the file is empty",
                  "write a header such as anchor,middle,clue and a row for each anchor");
    return terms;
  }
  if (rows.empty()) return terms;
  const std::vector<ColumnHead> heads = read_header(rows.front(), terms, reading);
  const auto anchor_head = std::find_if(
      heads.begin(), heads.end(), [](const ColumnHead& h) { return h.meaning == Meaning::anchor; });
  if (anchor_head == heads.end()) {
    reading.error(rows.front().front().place, "csv-header", "there is no column \"anchor\"",
                  "write a header such as anchor,middle,clue");
    return terms;
  }
  if (terms.sets.empty())
    reading.error(rows.front().front().place, "sets-missing", "there is no column with labels",
                  "add a column named for a set, such as middle");
  const auto anchor_column = static_cast<std::size_t>(anchor_head - heads.begin());
  std::map<std::string, Place> seen;
  for (std::size_t r = 1; r < rows.size(); ++r) {
    const CsvRow& row = rows[r];
    check_width(row, heads.size(), reading);
    const CsvField missing{{}, row.front().place};
    const CsvField& anchor = anchor_column < row.size() ? row[anchor_column] : missing;
    const std::string name(trimmed(anchor.text));
    if (!check_anchor_name(name, anchor.place, reading)) continue;
    const auto [first, fresh] = seen.emplace(name, anchor.place);
    if (!fresh) {
      Finding* const finding =
          reading.error(anchor.place, "anchor-duplicate",
                        "anchor " + in_quotes(name) + " has two rows", "remove or rename one");
      if (finding) finding->notes.push_back({reading.at(first->second), "first used here"});
      continue;
    }
    terms.terms.push_back(read_row(row, heads, anchor, reading, limits));
  }
  if (rows.size() == 1)
    reading.error(rows.front().front().place, "terms-missing", "the table has a header and no rows",
                  "add a row for each anchor");
  return terms;
}

}  // namespace platewright::read
