// A YAML document as a plain tree of values with places, whatever was written.
//
// Scalars keep their text as written ("no" is a word, not false), duplicate
// keys are kept, aliases are expanded within limits. yaml-cpp stays in yaml.cpp.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "read/reading.hpp"

namespace platewright::read {

struct YamlEntry;

struct YamlNode {
  enum class Kind { null, scalar, list, map };
  Kind kind = Kind::null;
  std::string text;                // of a scalar
  std::vector<YamlNode> items;     // of a list
  std::vector<YamlEntry> entries;  // of a map, in the order written
  Place place;

  bool is_null() const { return kind == Kind::null; }
  bool is_scalar() const { return kind == Kind::scalar; }
  bool is_list() const { return kind == Kind::list; }
  bool is_map() const { return kind == Kind::map; }
};

struct YamlEntry {
  YamlNode key;
  YamlNode value;
};

// yaml-cpp takes up to 100 bytes of memory and a microsecond for each byte.
inline constexpr std::size_t yaml_most_bytes = 2u << 20;
inline constexpr std::size_t yaml_most_nodes = 200'000;  // aliases expanded
inline constexpr std::size_t yaml_most_depth = 64;

// The one document of `text` (valid UTF-8). An empty file gives a null node.
// Errors are added to `reading`: `yaml-syntax`, `yaml-depth`, `yaml-large`,
// `yaml-alias`, `yaml-tag`, `yaml-documents`; the tree is then what was read
// before the fault, and not to be used.
YamlNode parse_yaml(std::string_view text, Reading& reading);

// What is known by a key of a map.
struct YamlField {
  std::string_view key;
  std::function<void(const YamlNode&)> read;
};

// Calls the reader of each key once. Errors `not-a-map`, `key-unknown`,
// `key-duplicate`. `what` names the map: "the terms file".
void read_map(const YamlNode& map, std::string_view what, std::span<const YamlField> fields,
              Reading& reading);

// A map whose keys are names of things: calls `read` for each key, the first
// time it comes. A second one is an error with `duplicate_code`.
void read_named(const YamlNode& map, std::string_view what, std::string_view duplicate_code,
                const std::function<void(const YamlNode& key, const YamlNode& value)>& read,
                Reading& reading);

// The text of a scalar; a list or map is an error `not-a-text`; null is "".
std::string read_text(const YamlNode& node, std::string_view what, Reading& reading);

}  // namespace platewright::read
