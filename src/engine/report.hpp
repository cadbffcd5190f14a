// The report of a solve: JSON, mm on the page.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "compose/plan.hpp"

namespace platewright {

struct ReportedSheet {
  std::string kind;
  std::vector<std::string> files;
  const compose::Plan* plan = nullptr;
  const std::vector<compose::Page>* pages = nullptr;
  std::string set;
  std::string check_code;
  double seconds = 0;
  std::vector<std::pair<std::string, double>> facts = {};  // of a game
  std::string style = {};  // of a layout that a later run may keep; else empty
};

std::string report_json(const std::string& figure, const std::vector<ReportedSheet>& sheets);

// Metres from which letters of this type size read: h = 2 d tan(theta / 2) with
// theta = 20 minutes of arc (ISO 9241-3 prefers 20' to 22') and h the cap height.
double reading_distance(Length text_size, double arcmin = 20);

}  // namespace platewright
