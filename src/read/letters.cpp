// Letters of a language: how often each stands, and what no puzzle may spell.
#include "platewright/letters.hpp"

#include <filesystem>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "base/utf8.hpp"
#include "read/encoding.hpp"
#include "read/language.hpp"
#include "read/read.hpp"
#include "read/terms_table.hpp"
#include "read/yaml.hpp"

namespace platewright::read {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_bytes = 1u << 20;
constexpr std::size_t shortest_unwanted = 3;  // two letters stand in every grid

Result<Letters> letters_from(const std::string& path) {
  const Result<std::string> bytes = file_bytes(path, most_bytes);
  if (!bytes) return bytes.findings();
  const Result<std::string> text = text_from(*bytes, path);
  if (!text) return text.findings();
  Reading reading{path, {}};
  const YamlNode root = parse_yaml(*text, reading);
  if (has_error(reading.findings)) return reading.findings;
  Letters letters;
  const std::vector<YamlField> fields = {
      {"letters",
       [&](const YamlNode& n) {
         read_named(
             n, "letters", "key-duplicate",
             [&](const YamlNode& key, const YamlNode& value) {
               const auto share = value.is_scalar() ? parse_number(value.text) : std::nullopt;
               if (!share || *share <= 0 || *share > 100)
                 reading.error(value.place, "letters-share",
                               "the share of " + in_quotes(key.text) + " is not a number above 0",
                               "write how many of a hundred letters it is");
               else
                 letters.frequency.emplace_back(key.text, *share);
             },
             reading);
       }},
      {"unwanted",
       [&](const YamlNode& n) {
         if (!n.is_list() && !n.is_null())
           reading.error(n.place, "letters-unwanted", "unwanted is not a list of words",
                         "write [FIRST, SECOND]");
         for (const YamlNode& item : n.items) {
           const std::string word(trimmed(read_text(item, "unwanted", reading)));
           if (utf8_length(word) < shortest_unwanted)
             reading.error(item.place, "letters-unwanted",
                           in_quotes(word) + " has less than three letters",
                           "leave it out: so short a word stands everywhere by chance");
           else
             letters.unwanted.push_back(word);
         }
       }},
  };
  read_map(root, "the letters file", fields, reading);
  Findings findings = sorted(std::move(reading.findings));
  if (has_error(findings)) return findings;
  return {std::move(letters), std::move(findings)};
}

}  // namespace

Result<Letters> letters(std::string_view language, const std::vector<std::string>& folders) {
  const auto tag = language_tag(language);
  if (!tag) return Letters{};  // read::words says so
  for (std::string part = *tag; !part.empty();) {  // RFC 4647, section 3.4 (lookup)
    for (const std::string& folder : folders) {
      const fs::path path = fs::path(folder) / ("letters." + part + ".yaml");
      std::error_code ignored;
      if (fs::is_regular_file(path, ignored)) return letters_from(path.string());
    }
    const std::size_t cut = part.rfind('-');
    part.erase(cut == std::string::npos ? 0 : cut);
  }
  return Letters{};
}

}  // namespace platewright::read
