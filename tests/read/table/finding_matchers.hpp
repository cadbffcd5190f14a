// What the tests of readers ask of findings.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>

#include "platewright/finding.hpp"

namespace platewright {

// "12:3 code" of each finding, one a line, in the order given.
inline std::string places_and_codes(const Findings& findings) {
  std::string out;
  for (const Finding& f : findings) {
    if (!out.empty()) out += '\n';
    out += std::to_string(f.at.line) + ':' + std::to_string(f.at.column) + ' ' + f.code;
  }
  return out;
}

inline std::string all_text(const Findings& findings) {
  std::string out;
  for (const Finding& f : findings) out += to_text(f) + '\n';
  return out;
}

inline bool has_code(const Findings& findings, std::string_view code) {
  return std::any_of(findings.begin(), findings.end(),
                     [&](const Finding& f) { return f.code == code; });
}

}  // namespace platewright
