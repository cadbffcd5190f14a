// What `truesize` and `pieces` both begin with: everything read and checked.
#pragma once

#include <optional>
#include <string>

#include "engine/load.hpp"
#include "engine/page_files.hpp"
#include "engine/real_paper.hpp"
#include "engine/real_scale.hpp"

namespace platewright {

struct RealSetup {
  Loaded loaded;
  RealPaper paper;
  RealScale scale;
  Length overlap;
  PageTarget target;
  std::string length_text;  // "Height: 118 cm"
};

// `sheet` names figure, terms, set, style and title; `suffix` the file in a folder.
// All faults at once; `overlap-range` besides those of the parts.
Result<RealSetup> real_setup(const SheetRequest& sheet, const RealSize& size,
                             const std::string& paper, const std::string& overlap,
                             const std::string& out, const std::string& suffix,
                             const Environment& environment);

// What a request at true size has in common with one for a sheet; the sheet's
// own paper is not used.
template <class Request>
SheetRequest sheet_request(const Request& request) {
  SheetRequest sheet;
  sheet.figure = request.figure;
  sheet.terms = request.terms;
  sheet.sets = request.sets;
  sheet.set = request.set;
  sheet.style = request.style;
  sheet.title = request.title;
  return sheet;
}

}  // namespace platewright
