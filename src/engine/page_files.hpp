// A document of pages as the files that `--out` asks for: one PDF, or an SVG or
// PNG file for each page.
#pragma once

#include <string>
#include <vector>

#include "emit/emit.hpp"
#include "engine/write.hpp"

namespace platewright {

enum class PageFormat { pdf, svg, png };

struct PageTarget {
  PageFormat format = PageFormat::pdf;
  std::string stem;    // without ending; of all files but the single PDF
  std::string single;  // the PDF's path
};

// `name` is the stem of files in a folder. Errors `out-missing`, `out-ending`.
Result<PageTarget> page_target(const std::string& out, const std::string& name);

// Files of all pages; SVG and PNG files end in "-" and the page's label.
// Findings of the stage emit.
Result<std::vector<OutputFile>> page_files(const PageTarget& target,
                                           const compose::Document& document,
                                           const emit::EmitContext& context);

}  // namespace platewright
