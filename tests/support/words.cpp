#include "support/words.hpp"

#include <charconv>
#include <stdexcept>

namespace support {

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  for (;;) {
    const std::size_t cut = text.find(separator);
    parts.emplace_back(text.substr(0, cut));
    if (cut == std::string_view::npos) return parts;
    text.remove_prefix(cut + 1);
  }
}

std::string folded(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool white = c == ' ' || c == '\n' || c == '\t' || c == '\r' || c == '\f';
    if (!white)
      out += c;
    else if (!out.empty() && out.back() != ' ')
      out += ' ';
  }
  if (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

bool contains(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

std::string replaced(std::string text, std::string_view what, std::string_view by) {
  for (std::size_t at = text.find(what); at != std::string::npos;
       at = text.find(what, at + by.size()))
    text.replace(at, what.size(), by);
  return text;
}

std::vector<std::string> between(std::string_view text, std::string_view before,
                                 std::string_view after) {
  std::vector<std::string> found;
  for (std::size_t at = text.find(before); at != std::string_view::npos;
       at = text.find(before, at)) {
    at += before.size();
    const std::size_t end = text.find(after, at);
    if (end == std::string_view::npos) break;
    found.emplace_back(text.substr(at, end - at));
    at = end + after.size();
  }
  return found;
}

std::string decoded_percent(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    int code = 0;
    if (text[i] == '%' && i + 2 < text.size() &&
        std::from_chars(text.data() + i + 1, text.data() + i + 3, code, 16).ec == std::errc()) {
      out += static_cast<char>(code);
      i += 2;
    } else {
      out += text[i];
    }
  }
  return out;
}

std::string decoded_xml(std::string_view text) {
  std::string out(text);
  for (const auto& [entity, character] :
       {std::pair{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&apos;", "'"}, {"&#39;", "'"},
        {"&#34;", "\""}, {"&amp;", "&"}})
    out = replaced(out, entity, character);
  return out;
}

double number(std::string_view text) {
  double value = 0;
  const auto end = std::from_chars(text.data(), text.data() + text.size(), value);
  if (end.ec != std::errc()) throw std::runtime_error("no number: " + std::string(text));
  return value;
}

}  // namespace support
