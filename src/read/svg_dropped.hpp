// What the sanitiser took out of a figure, counted: one warning for each kind,
// at the place of the first.
#pragma once

#include <array>
#include <cstddef>

#include "platewright/finding.hpp"

namespace platewright::read {

enum class Dropped {
  script,
  handler,
  foreign,
  animation,
  link,
  media,
  reference,
  css_import,
  css_rule,
  css_value,
  instruction,
  nested_svg_image,
  broken_image,
  unknown_element,
  duplicate_id,
};
inline constexpr std::size_t dropped_kinds = 15;

class DropCount {
 public:
  void add(Dropped kind, const SourcePosition& at);
  void report(Findings& findings) const;

 private:
  struct Entry {
    std::size_t count = 0;
    SourcePosition first;
  };
  std::array<Entry, dropped_kinds> entries_;
};

}  // namespace platewright::read
