#include <iostream>

#include "verb.hpp"

namespace platewright::cli {

int say(const Findings& findings, const Common& common) {
  const Findings all = sorted(findings);
  if (common.json) {
    std::cout << to_json(all) << '\n';
  } else {
    for (const Finding& finding : all) std::cerr << to_text(finding) << '\n';
  }
  return has_error(all) ? 1 : 0;
}

}  // namespace platewright::cli
