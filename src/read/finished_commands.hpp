// What the commands on a PDF's pages draw, by qpdf: strokes as wide as they come
// out, where each run of text starts, and the labels and leaders that our own
// writer marks (see emit/pdf_artifacts.hpp).
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "read/finished.hpp"

namespace platewright::read {

struct TextRun {
  PagePoint start;      // on the baseline
  bool upright = true;  // set level, neither turned nor mirrored
  std::string label;    // anchor, or nothing
};

struct PageCommands {
  std::vector<FinishedStroke> strokes;
  std::vector<FinishedLeader> leaders;
  std::vector<FinishedImage> images;
  std::vector<TextRun> runs;
  double x = 0, y = 0, width = 0, height = 0;  // of the media box, points
  std::optional<PageBox> trim, bleed, crop;    // mm
  double unit = 1;                             // points
  std::string language;                        // of the document
};

// Calls `each` with every page in order and how many there are; what it returns
// ends it. Errors `pdf-unreadable`, `pdf-large`.
Findings each_page_commands(
    std::string_view bytes, const std::string& path,
    const std::function<Findings(PageCommands&&, std::size_t index, std::size_t count)>& each);

}  // namespace platewright::read
