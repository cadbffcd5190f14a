#include "platewright/words.hpp"

#include <algorithm>
#include <filesystem>
#include <set>
#include <utility>

#include "base/nearest.hpp"
#include "base/quote.hpp"
#include "read/encoding.hpp"
#include "read/language.hpp"
#include "read/read.hpp"
#include "read/yaml.hpp"

namespace platewright::read {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_words_bytes = 1u << 20;

// "{page}" and the like, in the order they stand.
std::vector<std::string> placeholders_in(std::string_view text) {
  std::vector<std::string> out;
  for (std::size_t at = text.find('{'); at != std::string_view::npos; at = text.find('{', at + 1)) {
    const std::size_t end = text.find('}', at);
    if (end == std::string_view::npos) break;
    out.emplace_back(text.substr(at + 1, end - at - 1));
  }
  return out;
}

void check_placeholders(const WordKey& key, const std::string& text, Place place,
                        Reading& reading) {
  const auto found = placeholders_in(text);
  const auto has = [](const auto& names, std::string_view name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  };
  for (const std::string_view wanted : key.placeholders)
    if (!has(found, wanted))
      reading.error(place, "words-placeholder",
                    in_quotes(key.key) + " lacks the placeholder {" + std::string(wanted) + "}",
                    "put it where the value belongs");
  for (const std::string& other : found)
    if (!has(key.placeholders, other))
      reading.error(place, "words-placeholder",
                    in_quotes(key.key) + " has an unknown placeholder {" + escaped(other) + "}",
                    key.placeholders.empty() ? "remove it" : "use " + listed(key.placeholders));
}

Result<Words> words_from(const std::string& path, const std::string& language) {
  const Result<std::string> bytes = file_bytes(path, most_words_bytes);
  if (!bytes) return bytes.findings();
  const Result<std::string> text = text_from(*bytes, path);
  if (!text) return text.findings();
  Reading reading{path, {}};
  const YamlNode root = parse_yaml(*text, reading);
  if (has_error(reading.findings)) return reading.findings;
  Words words{language, {}};
  std::vector<YamlField> fields;
  for (const WordKey& key : word_keys())
    fields.push_back({key.key, [&](const YamlNode& n) {
                        const std::string value(trimmed(read_text(n, key.key, reading)));
                        check_placeholders(key, value, n.place, reading);
                        words.by_key[std::string(key.key)] = value;
                      }});
  read_map(root, "the words file", fields, reading);
  for (const WordKey& key : word_keys()) {
    const auto found = words.by_key.find(key.key);
    if (root.is_map() && (found == words.by_key.end() || found->second.empty()))
      reading.error({}, "words-missing", "there is no text for " + in_quotes(key.key),
                    "add it; every language has all of them");
  }
  Findings findings = sorted(std::move(reading.findings));
  if (has_error(findings)) return findings;
  return {std::move(words), std::move(findings)};
}

std::string find_file(const std::string& tag, const std::vector<std::string>& folders) {
  for (const std::string& folder : folders) {
    const fs::path path = fs::path(folder) / ("words." + tag + ".yaml");
    std::error_code ignored;
    if (fs::is_regular_file(path, ignored)) return path.string();
  }
  return {};
}

}  // namespace

Result<Words> words(std::string_view language, const std::vector<std::string>& folders) {
  const auto tag = language_tag(language);
  if (!tag)
    return error("language-invalid", {}, in_quotes(language) + " is not a language tag (BCP 47)",
                 "write a code such as en or de");
  // RFC 4647, section 3.4 (lookup).
  for (std::string part = *tag; !part.empty();) {
    if (const std::string path = find_file(part, folders); !path.empty())
      return words_from(path, part);
    const std::size_t cut = part.rfind('-');
    part.erase(cut == std::string::npos ? 0 : cut);
  }
  const std::string english = find_file("en", folders);
  if (english.empty())
    return error("words-missing", {}, "there is no file words.en.yaml in the styles' folders",
                 "install the shipped styles or name their folder");
  Result<Words> words = words_from(english, "en");
  if (!words) return words;
  Findings findings = words.findings();
  findings.push_back(
      warning("words-fallback", {},
              "the program's own words are not known in " + in_quotes(*tag) + " and stay English",
              "add a file words." + *tag + ".yaml beside the styles"));
  return {std::move(words).value(), std::move(findings)};
}

}  // namespace platewright::read
