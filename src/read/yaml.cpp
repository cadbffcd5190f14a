#include "read/yaml.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <sstream>
#include <utility>

#include "base/nearest.hpp"
#include "base/quote.hpp"
#include "base/utf8.hpp"

namespace platewright::read {
namespace {

// Ends a parse from inside the library's callbacks; caught in parse_yaml.
struct Stop {};

// yaml-cpp counts columns in bytes from 0, people in characters from 1. Marks
// come mostly in order, so each line is walked once.
class Columns {
 public:
  explicit Columns(std::string_view text) : text_(text), starts_{0} {
    for (std::size_t i = 0; i < text.size(); ++i)
      if (text[i] == '\n') starts_.push_back(i + 1);
  }
  // Where the mark is in the text; its end for a mark beyond it.
  std::size_t offset(const YAML::Mark& mark) const {
    const auto line = static_cast<std::size_t>(mark.line);
    if (mark.is_null() || line >= starts_.size()) return text_.size();
    return std::min(starts_[line] + static_cast<std::size_t>(mark.column), text_.size());
  }
  Place place(const YAML::Mark& mark) {
    if (mark.is_null()) return {};
    const auto line = static_cast<std::size_t>(mark.line);
    if (line >= starts_.size()) return {mark.line + 1, 0};
    const std::size_t target = offset(mark);
    if (line != line_ || target < at_) {
      line_ = line;
      at_ = starts_[line];
      column_ = 1;
    }
    for (; at_ < target; ++at_)
      if ((static_cast<unsigned char>(text_[at_]) & 0xc0U) != 0x80U) ++column_;
    return {mark.line + 1, column_};
  }
  std::string_view line_text(const YAML::Mark& mark) const {
    const auto line = static_cast<std::size_t>(mark.line);
    if (line >= starts_.size()) return {};
    return text_.substr(starts_[line], text_.find('\n', starts_[line]) - starts_[line]);
  }

 private:
  std::string_view text_;
  std::vector<std::size_t> starts_;
  std::size_t line_ = 0;
  std::size_t at_ = 0;
  int column_ = 1;
};

// The end of the quoted scalar at `at` (anchors and tags before it passed over):
// one past its closing quote, nothing where the text ends first, and `at` itself
// where no quoted scalar begins.
std::optional<std::size_t> end_of_quoted(std::string_view text, std::size_t at) {
  std::size_t i = at;
  while (i < text.size() && (text[i] == '&' || text[i] == '!')) {
    i = text.find_first_of(" \t\r\n", i);
    i = i == std::string_view::npos ? i : text.find_first_not_of(" \t\r\n", i);
    if (i == std::string_view::npos) return at;
  }
  if (i >= text.size() || (text[i] != '"' && text[i] != '\'')) return at;
  const char quote = text[i];
  for (++i; i < text.size(); ++i) {
    if (quote == '"' && text[i] == '\\') {
      ++i;
    } else if (text[i] == quote) {
      const bool doubled = quote == '\'' && i + 1 < text.size() && text[i + 1] == quote;
      if (!doubled) return i + 1;
      ++i;
    }
  }
  return std::nullopt;
}

std::size_t count_nodes(const YamlNode& node) {
  std::size_t count = 1;
  for (const YamlNode& item : node.items) count += count_nodes(item);
  for (const YamlEntry& entry : node.entries)
    count += count_nodes(entry.key) + count_nodes(entry.value);
  return count;
}

std::size_t count_bytes(const YamlNode& node) {
  std::size_t count = node.text.size();
  for (const YamlNode& item : node.items) count += count_bytes(item);
  for (const YamlEntry& entry : node.entries)
    count += count_bytes(entry.key) + count_bytes(entry.value);
  return count;
}

std::size_t depth_of(const YamlNode& node) {
  std::size_t deepest = 0;
  for (const YamlNode& item : node.items) deepest = std::max(deepest, depth_of(item));
  for (const YamlEntry& entry : node.entries)
    deepest = std::max({deepest, depth_of(entry.key), depth_of(entry.value)});
  return deepest + 1;
}

class TreeBuilder : public YAML::EventHandler {
 public:
  TreeBuilder(std::string_view text, Columns& columns, Reading& reading)
      : text_(text), columns_(columns), reading_(reading) {}

  YamlNode take_root() { return std::move(root_); }

  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    finish(make(YamlNode::Kind::null, mark), anchor);
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    YamlNode node = make(YamlNode::Kind::scalar, mark);
    check_tag(tag, node.place);
    node.text = value;
    const auto end = end_of_quoted(text_, columns_.offset(mark));
    if (!end) never_ends(node.place);
    quoted_ = {*end, node.place};
    finish(std::move(node), anchor);
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    const auto known = anchored_.find(anchor);
    if (known == anchored_.end()) {
      reading_.error(columns_.place(mark), "yaml-alias", "an alias stands inside what it refers to",
                     "write the text out");
      throw Stop{};
    }
    nodes_ += known->second.nodes;
    bytes_ += known->second.bytes;
    if (nodes_ > yaml_most_nodes || bytes_ > 2 * yaml_most_bytes ||
        open_.size() + known->second.depth > yaml_most_depth)
      too_many_aliases(columns_.place(mark));
    finish(known->second.node, YAML::NullAnchor);
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    begin(YamlNode::Kind::list, mark, tag, anchor);
  }
  void OnSequenceEnd() override { end(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    begin(YamlNode::Kind::map, mark, tag, anchor);
  }
  void OnMapEnd() override { end(); }

 private:
  struct Open {
    YamlNode node;
    YAML::anchor_t anchor = YAML::NullAnchor;
    std::optional<YamlNode> key;
  };
  struct Anchored {
    YamlNode node;
    std::size_t nodes = 0;
    std::size_t bytes = 0;
    std::size_t depth = 0;
  };

  [[noreturn]] void too_many_aliases(Place place) {
    reading_.error(place, "yaml-alias",
                   "the anchors and aliases of this file expand to more than " +
                       std::to_string(yaml_most_nodes) + " values, " +
                       std::to_string(2 * yaml_most_bytes) + " bytes or " +
                       std::to_string(yaml_most_depth) + " levels",
                   "write the texts out");
    throw Stop{};
  }

  [[noreturn]] void never_ends(Place place) {
    reading_.error(place, "yaml-syntax", "this is not YAML: a quoted text never ends",
                   "close the quote");
    throw Stop{};
  }

  YamlNode make(YamlNode::Kind kind, const YAML::Mark& mark) {
    // yaml-cpp lets a line that is indented less end a quoted text: what comes
    // next then lies before the closing quote.
    if (kind != YamlNode::Kind::null && columns_.offset(mark) < quoted_.end)
      never_ends(quoted_.place);
    YamlNode node;
    node.kind = kind;
    node.place = columns_.place(mark);
    if (++nodes_ > yaml_most_nodes) {
      if (!anchored_.empty()) too_many_aliases(node.place);
      reading_.error(node.place, "yaml-large",
                     "the file holds more than " + std::to_string(yaml_most_nodes) + " values",
                     "split it");
      throw Stop{};
    }
    return node;
  }

  // Only the tags that change nothing: a quoted or plain scalar, text, list, map.
  void check_tag(const std::string& tag, Place place) {
    if (tag.empty() || tag == "!" || tag == "?" || tag == "tag:yaml.org,2002:str" ||
        tag == "tag:yaml.org,2002:seq" || tag == "tag:yaml.org,2002:map")
      return;
    reading_.error(place, "yaml-tag", "tag " + in_quotes(tag) + " means nothing here", "remove it");
  }

  void begin(YamlNode::Kind kind, const YAML::Mark& mark, const std::string& tag,
             YAML::anchor_t anchor) {
    YamlNode node = make(kind, mark);
    check_tag(tag, node.place);
    if (open_.size() >= yaml_most_depth) {
      reading_.error(
          node.place, "yaml-depth",
          "lists and maps are nested more than " + std::to_string(yaml_most_depth) + " deep",
          "a table of terms needs four levels; check the brackets");
      throw Stop{};
    }
    open_.push_back({std::move(node), anchor, std::nullopt});
  }

  void end() {
    Open done = std::move(open_.back());
    open_.pop_back();
    finish(std::move(done.node), done.anchor);
  }

  void finish(YamlNode node, YAML::anchor_t anchor) {
    if (anchor != YAML::NullAnchor) {
      // The kept copy counts too: nested anchors would multiply the file.
      const std::size_t nodes = count_nodes(node);
      nodes_ += nodes;
      anchored_[anchor] = {node, nodes, count_bytes(node), depth_of(node)};
    }
    if (open_.empty()) {
      root_ = std::move(node);
      return;
    }
    Open& parent = open_.back();
    if (parent.node.is_list()) {
      parent.node.items.push_back(std::move(node));
    } else if (!parent.key) {
      parent.key = std::move(node);
    } else {
      // yaml-cpp places a missing value at whatever comes next.
      if (node.is_null()) node.place = parent.key->place;
      parent.node.entries.push_back({std::move(*parent.key), std::move(node)});
      parent.key.reset();
    }
  }

  struct Quoted {
    std::size_t end = 0;
    Place place;
  };

  std::string_view text_;
  Columns& columns_;
  Reading& reading_;
  Quoted quoted_;  // the last quoted text
  YamlNode root_;
  std::vector<Open> open_;
  std::map<YAML::anchor_t, Anchored> anchored_;
  std::size_t nodes_ = 0;
  std::size_t bytes_ = 0;
};

std::string advice_for(std::string_view line) {
  const std::size_t first = line.find_first_not_of(' ');
  if (first != std::string_view::npos && line[first] == '\t')
    return "indent with spaces, not with tabs";
  return "check quotes, brackets, colons and indentation here and just above; a text with \": \" "
         "or a leading special character needs quotes";
}

}  // namespace

YamlNode parse_yaml(std::string_view text, Reading& reading) {
  if (text.size() > yaml_most_bytes) {
    reading.error({}, "yaml-large",
                  "the file has " + std::to_string(text.size()) + " bytes, more than " +
                      std::to_string(yaml_most_bytes),
                  "split it");
    return {};
  }
  Columns columns(text);
  TreeBuilder tree(text, columns, reading);
  try {
    std::istringstream stream{std::string(text)};
    YAML::Parser parser(stream);
    if (parser.HandleNextDocument(tree)) {
      Columns later_columns(text);
      Reading ignored{reading.file, {}};
      TreeBuilder later(text, later_columns, ignored);
      if (parser.HandleNextDocument(later))
        reading.error(later.take_root().place, "yaml-documents",
                      "the file holds more than one YAML document",
                      "remove the \"---\" line or split the file");
    }
  } catch (const Stop&) {
    if (!has_error(reading.findings))
      reading.error({}, "yaml-documents", "the file holds more than one YAML document",
                    "remove the \"---\" line or split the file");
  } catch (const YAML::ParserException& fault) {
    reading.error(columns.place(fault.mark), "yaml-syntax", "this is not YAML: " + fault.msg,
                  advice_for(columns.line_text(fault.mark)));
  } catch (const YAML::Exception& fault) {
    reading.error(columns.place(fault.mark), "yaml-syntax", "this is not YAML: " + fault.msg);
  }
  return tree.take_root();
}

void read_named(const YamlNode& map, std::string_view what, std::string_view duplicate_code,
                const std::function<void(const YamlNode&, const YamlNode&)>& read,
                Reading& reading) {
  if (!map.is_map()) {
    reading.error(map.place, "not-a-map", std::string(what) + " is not a map of names to values",
                  "write \"name: value\" lines");
    return;
  }
  std::map<std::string_view, Place> seen;
  for (const YamlEntry& entry : map.entries) {
    if (!entry.key.is_scalar() || entry.key.text.empty()) {
      reading.error(entry.key.place, "key-invalid",
                    "a key of " + std::string(what) + " is not a name",
                    "write a plain name before the colon");
      continue;
    }
    const auto [first, fresh] = seen.emplace(entry.key.text, entry.key.place);
    if (!fresh) {
      Finding* const finding =
          reading.error(entry.key.place, std::string(duplicate_code),
                        in_quotes(entry.key.text) + " is in " + std::string(what) + " twice",
                        "remove or rename one");
      if (finding) finding->notes.push_back({reading.at(first->second), "first used here"});
      continue;
    }
    read(entry.key, entry.value);
  }
}

void read_map(const YamlNode& map, std::string_view what, std::span<const YamlField> fields,
              Reading& reading) {
  read_named(
      map, what, "key-duplicate",
      [&](const YamlNode& key, const YamlNode& value) {
        const auto field = std::find_if(fields.begin(), fields.end(),
                                        [&](const YamlField& f) { return f.key == key.text; });
        if (field != fields.end()) {
          field->read(value);
          return;
        }
        std::vector<std::string_view> known;
        for (const YamlField& f : fields) known.push_back(f.key);
        reading.error(key.place, "key-unknown",
                      "unknown key " + in_quotes(key.text) + " in " + std::string(what),
                      did_you_mean(key.text, known, "known are " + listed(known)));
      },
      reading);
}

std::string read_text(const YamlNode& node, std::string_view what, Reading& reading) {
  if (node.is_null() || node.is_scalar()) return node.text;
  reading.error(node.place, "not-a-text", std::string(what) + " is not a text",
                "write one text; quote it if it has brackets or colons");
  return {};
}

}  // namespace platewright::read
