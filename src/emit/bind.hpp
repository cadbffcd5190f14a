// Finished PDFs bound into one: pages in their order, a running line laid over
// each, bookmarks, page labels and links.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "emit/emit.hpp"

namespace platewright::emit {

struct BoundPage {
  int part = -1;           // which of the parts; < 0: the binding's own document
  std::size_t page = 0;    // of it, from 0
  int running = -1;        // page of the own document whose content is laid over it; < 0: none
  std::string label;       // "12", "K3"
};

struct BoundBookmark {
  std::string title;
  int level = 0;
  std::size_t page = 0;    // of the bound document
};

struct BoundLink {
  std::size_t page = 0;    // one of the own document's pages, as bound
  PageBox box;             // on it
  std::optional<std::size_t> to;  // page of the bound document; else
  std::string address;
  std::string says;        // for screen readers
};

struct Binding {
  compose::Document own;   // also title, language, author and direction of the whole
  std::vector<std::string_view> parts;  // PDFs that `pdf` made
  std::vector<BoundPage> pages;
  std::vector<BoundBookmark> bookmarks;
  std::vector<BoundLink> links;
};

// Error `part-unreadable` besides those of `pdf`.
Result<std::string> bound_pdf(const Binding& binding, const EmitContext& context);

}  // namespace platewright::emit
