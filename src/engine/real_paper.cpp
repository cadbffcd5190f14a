#include "engine/real_paper.hpp"

#include <algorithm>

#include "base/quote.hpp"
#include "platewright/true_size.hpp"

namespace platewright {

Result<RealPaper> real_paper(const std::string& text, const Style& style) {
  const double iso = style.true_size.iso_margin.mm(), other = style.true_size.other_margin.mm();
  if (trimmed(text) == paper_letter_a4)
    return RealPaper{text, letter_a4_width, letter_a4_height, iso};
  auto paper = find_paper(text);
  if (!paper.ok()) {
    Findings findings = paper.findings();
    for (Finding& f : findings) f.at.file = "--paper";
    return findings;
  }
  const double w = paper->width.mm(), h = paper->height.mm();
  return RealPaper{paper->name, std::min(w, h), std::max(w, h),
                   paper->standard == "ISO 216" ? iso : other};
}

}  // namespace platewright
