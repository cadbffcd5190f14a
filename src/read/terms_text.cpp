#include <algorithm>
#include <array>

#include "base/nearest.hpp"
#include "base/quote.hpp"
#include "base/utf8.hpp"
#include "read/language.hpp"
#include "read/terms_table.hpp"

namespace platewright::read {
namespace {

constexpr std::size_t long_label = 120;           // characters
constexpr std::size_t longest_anchor_name = 200;  // bytes

bool has_control(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const auto character = utf8_at(text, at);
    if (!character || (is_control(character->code) && character->code != '\n')) return true;
    at += character->bytes;
  }
  return false;
}

}  // namespace

std::string clean_text(std::string_view text, Place place, std::string_view what, Reading& reading,
                       const Limits& limits) {
  if (text.size() > limits.text_length) {
    reading.error(place, "text-too-long",
                  std::string(what) + " has " + std::to_string(text.size()) + " bytes, more than " +
                      std::to_string(limits.text_length),
                  "shorten it");
    return {};
  }
  std::string out;
  while (!text.empty()) {
    const std::size_t end = text.find_first_of("\r\n");
    std::string line(trimmed(text.substr(0, end)));
    std::replace(line.begin(), line.end(), '\t', ' ');
    if (!line.empty()) out += (out.empty() ? "" : "\n") + line;
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + 1);
  }
  if (has_control(out)) {
    reading.error(place, "text-control",
                  std::string(what) + ' ' + in_quotes(out) + " has a control character",
                  "delete it");
    return {};
  }
  return out;
}

Wording wording(const std::vector<std::pair<std::string, Place>>& texts, std::string_view what,
                Reading& reading, const Limits& limits) {
  Wording out;
  for (const auto& [written, place] : texts) {
    std::string text = clean_text(written, place, what, reading, limits);
    if (text.empty()) continue;
    if (utf8_length(text) > long_label)
      reading.warning(place, "label-long",
                      std::string(what) + " has " + std::to_string(utf8_length(text)) +
                          " characters, more than " + std::to_string(long_label),
                      "keep the name and move the rest to the clue");
    if (out.text.empty())
      out.text = std::move(text);
    else
      out.alternatives.push_back(std::move(text));
  }
  return out;
}

bool check_anchor_name(std::string_view name, Place place, Reading& reading) {
  std::string why;
  if (name.empty())
    why = "an anchor has no name";
  else if (name.size() > longest_anchor_name)
    why = "the anchor name " + in_quotes(name) + " has " + std::to_string(name.size()) +
          " bytes, more than " + std::to_string(longest_anchor_name);
  else if (has_control(name) || name.find('\n') != std::string_view::npos)
    why = "the anchor name " + in_quotes(name) + " has a control character";
  if (why.empty()) return true;
  reading.error(place, "anchor-name", why, "give it the name that the figure uses");
  return false;
}

std::optional<std::string> text_key(std::string_view key, Place place,
                                    const std::vector<LabelSet>& sets, std::string_view what,
                                    Reading& reading) {
  std::vector<std::string_view> names;
  for (const LabelSet& set : sets) {
    if (set.name == key) return std::string(key);
    names.push_back(set.name);
  }
  if (auto tag = language_tag(key)) return tag;
  reading.error(place, "text-key",
                std::string(what) + " has a text for " + in_quotes(key) +
                    ", which is neither a set nor a language",
                did_you_mean(key, names, "use a set's name or a language such as en"));
  return std::nullopt;
}

TextBySet text_by_set(const YamlNode& node, std::string_view what,
                      const std::vector<LabelSet>& sets, Reading& reading, const Limits& limits) {
  TextBySet out;
  const auto clean = [&](const YamlNode& n) {
    return clean_text(read_text(n, what, reading), n.place, what, reading, limits);
  };
  if (!node.is_map()) {
    out.everywhere = clean(node);
    return out;
  }
  read_named(
      node, what, "key-duplicate",
      [&](const YamlNode& key, const YamlNode& value) {
        auto name = text_key(key.text, key.place, sets, what, reading);
        std::string text = clean(value);
        if (name && !text.empty()) out.by[*std::move(name)] = std::move(text);
      },
      reading);
  return out;
}

PreferredSide preferred_side(std::string_view text, Place place, Reading& reading) {
  if (text.empty() || text == "any") return PreferredSide::any;
  if (text == "left") return PreferredSide::left;
  if (text == "right") return PreferredSide::right;
  constexpr std::array<std::string_view, 3> known = {"left", "right", "any"};
  reading.error(place, "side-unknown", "there is no side " + in_quotes(text),
                "use " + listed(known) + ", of the page as the reader sees it");
  return PreferredSide::any;
}

InsideWish inside_wish(std::string_view text, Place place, Reading& reading) {
  if (text.empty()) return InsideWish::as_style;
  if (text == "yes" || text == "true") return InsideWish::yes;
  if (text == "no" || text == "false") return InsideWish::no;
  reading.error(place, "inside-unknown", "inside is " + in_quotes(text) + ", neither yes nor no",
                "write yes where the label may stand inside its region, no where it may not");
  return InsideWish::as_style;
}

}  // namespace platewright::read
