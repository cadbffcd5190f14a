#include "base/nearest.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "base/quote.hpp"

namespace platewright {
namespace {

char small(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  const std::size_t width = b.size() + 1;
  std::vector<std::size_t> before(width), above(width), row(width);
  for (std::size_t j = 0; j < width; ++j) above[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j < width; ++j) {
      const std::size_t change = small(a[i - 1]) == small(b[j - 1]) ? 0 : 1;
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + change});
      if (i > 1 && j > 1 && small(a[i - 1]) == small(b[j - 2]) &&
          small(a[i - 2]) == small(b[j - 1]))
        row[j] = std::min(row[j], before[j - 2] + 1);
    }
    std::swap(before, above);
    std::swap(above, row);
  }
  return above[b.size()];
}

std::vector<std::string_view> nearest(std::string_view name,
                                      std::span<const std::string_view> known, std::size_t most) {
  if (name.size() > 200) return {};  // nobody's slip of the pen; the table would be large
  const std::size_t farthest = std::clamp<std::size_t>(name.size() / 3, 1, 3);
  std::vector<std::pair<std::size_t, std::string_view>> near;
  for (const std::string_view candidate : known) {
    const std::size_t shorter = std::min(candidate.size(), name.size());
    if (std::max(candidate.size(), name.size()) - shorter > farthest) continue;
    const std::size_t distance = edit_distance(name, candidate);
    if (distance <= farthest) near.emplace_back(distance, candidate);
  }
  std::stable_sort(near.begin(), near.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string_view> names;
  for (const auto& [distance, candidate] : near)
    if (names.size() < most) names.push_back(candidate);
  return names;
}

std::string did_you_mean(std::string_view name, std::span<const std::string_view> known,
                         std::string otherwise) {
  const auto near = nearest(name, known, 1);
  return near.empty() ? std::move(otherwise) : "did you mean " + in_quotes(near.front());
}

}  // namespace platewright
