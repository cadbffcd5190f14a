// What stands in a PDF's catalogue and trailer: outline, page labels, title,
// language, viewer preferences; and its bytes.
#pragma once

#include <qpdf/QPDF.hh>
#include <string>
#include <vector>

#include "emit/emit.hpp"

namespace platewright::emit {

struct OutlineEntry {
  std::string title;
  int level = 0;
  std::size_t page = 0;
};

// ISO 32000-1, 12.3.3; an entry is a child of the nearest one before it with a
// lower level. All start closed.
void set_outline(QPDF& pdf, const std::vector<OutlineEntry>& entries,
                 const std::vector<QPDFObjectHandle>& pages);

// ISO 32000-1, 12.4.2. A label of digits, or of letters and digits after them,
// counts on; any other is a prefix alone. An empty one is the page's number.
void set_page_labels(QPDF& pdf, const std::vector<std::string>& labels);

void set_information(QPDF& pdf, const compose::Document& document, const EmitContext& context);

// The same bytes for the same objects: no clock, no random numbers.
std::string written(QPDF& pdf);

}  // namespace platewright::emit
