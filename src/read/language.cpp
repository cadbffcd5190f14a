#include "read/language.hpp"

#include <algorithm>
#include <vector>

namespace platewright::read {
namespace {

bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool digit(char c) { return c >= '0' && c <= '9'; }
bool letters(std::string_view t) { return std::all_of(t.begin(), t.end(), letter); }
bool digits(std::string_view t) { return std::all_of(t.begin(), t.end(), digit); }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }
char upper(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

bool variant(std::string_view t) {
  return (t.size() >= 5 && t.size() <= 8) || (t.size() == 4 && digit(t.front()));
}

// Cut at hyphens; nothing when a part is empty, longer than 8, or has other signs.
std::optional<std::vector<std::string_view>> subtags(std::string_view text) {
  std::vector<std::string_view> parts;
  for (;;) {
    const std::size_t cut = text.find('-');
    const std::string_view part = text.substr(0, cut);
    const bool good =
        !part.empty() && part.size() <= 8 &&
        std::all_of(part.begin(), part.end(), [](char c) { return letter(c) || digit(c); });
    if (!good) return std::nullopt;
    parts.push_back(part);
    if (cut == std::string_view::npos) return parts;
    text.remove_prefix(cut + 1);
  }
}

}  // namespace

std::optional<std::string> language_tag(std::string_view text) {
  const auto parts = subtags(text);
  if (!parts || text.size() > 60) return std::nullopt;
  const auto& p = *parts;
  std::size_t i = 0;
  const auto is = [&](auto shape) { return i < p.size() && shape(p[i]); };
  const auto skip = [&](auto shape, std::size_t most) {
    for (std::size_t n = 0; n < most && is(shape); ++n) ++i;
  };
  std::size_t script = p.size(), region = p.size();
  if (is([](auto t) { return t == "x" || t == "X"; })) {
    if (p.size() < 2) return std::nullopt;
    i = p.size();
  } else {
    if (!is([](auto t) { return (t.size() == 2 || t.size() == 3) && letters(t); }))
      return std::nullopt;
    ++i;
    skip([](auto t) { return t.size() == 3 && letters(t); }, 3);
    if (is([](auto t) { return t.size() == 4 && letters(t); })) script = i++;
    if (is([](auto t) { return (t.size() == 2 && letters(t)) || (t.size() == 3 && digits(t)); }))
      region = i++;
    skip(variant, p.size());
    while (is([](auto t) { return t.size() == 1; })) {
      const bool private_use = lower(p[i].front()) == 'x';
      const std::size_t first = ++i;
      skip([&](auto t) { return private_use || t.size() >= 2; }, p.size());
      if (i == first) return std::nullopt;
    }
  }
  if (i != p.size()) return std::nullopt;
  std::string tag;
  for (std::size_t k = 0; k < p.size(); ++k) {
    if (k > 0) tag += '-';
    for (std::size_t c = 0; c < p[k].size(); ++c)
      tag += k == region || (k == script && c == 0) ? upper(p[k][c]) : lower(p[k][c]);
  }
  return tag;
}

}  // namespace platewright::read
