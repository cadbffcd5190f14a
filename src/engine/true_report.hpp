// What was made at true size: where each sheet lies in the whole, mm.
#pragma once

#include <string>
#include <vector>

#include "compose/true_size.hpp"
#include "engine/real_scale.hpp"

namespace platewright {

struct TrueSizeReport {
  std::string figure;
  std::vector<std::string> files;
  const compose::TrueSizeInput* input = nullptr;
  const RealScale* scale = nullptr;
  std::string paper;
  bool landscape = false;
  int box_sheets = 0;  // what the bounding box would take
  PageBox painted;     // in the true-size frame
  compose::Ruler cover_ruler;
  const std::vector<compose::TileSheet>* sheets = nullptr;
};

std::string true_size_report(const TrueSizeReport& report);

}  // namespace platewright
