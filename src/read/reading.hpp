// The findings of one file while it is read.
#pragma once

#include <string>
#include <utility>

#include "platewright/finding.hpp"

namespace platewright::read {

// Hostile files could be wrong in a million places; a person reads the first few hundred.
inline constexpr std::size_t most_findings = 500;

struct Place {
  int line = 0;
  int column = 0;
};

struct Reading {
  std::string file;
  Findings findings;

  SourcePosition at(Place place) const { return {file, place.line, place.column}; }
  Finding* add(Finding finding) {
    if (findings.size() > most_findings) return nullptr;
    if (findings.size() == most_findings)
      finding = platewright::error(
          "findings-many", {file, 0, 0},
          "there are more than " + std::to_string(most_findings) + " findings in this file",
          "mend the first ones and check again");
    return &findings.emplace_back(std::move(finding));
  }
  Finding* error(Place place, std::string code, std::string message, std::string advice = {}) {
    return add(
        platewright::error(std::move(code), at(place), std::move(message), std::move(advice)));
  }
  Finding* warning(Place place, std::string code, std::string message, std::string advice = {}) {
    return add(
        platewright::warning(std::move(code), at(place), std::move(message), std::move(advice)));
  }
};

}  // namespace platewright::read
