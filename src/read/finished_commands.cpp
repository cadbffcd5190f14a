#include "read/finished_commands.hpp"

#include <algorithm>
#include <exception>
#include <optional>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>

#include "base/quote.hpp"
#include "read/pdf_commands.hpp"

namespace platewright::read {
namespace {

constexpr std::size_t most_pages = 2000;

struct Corners {
  double left = 0, bottom = 0, right = 0, top = 0;
};
std::optional<Corners> corners(QPDFObjectHandle array) {
  if (!array.isRectangle()) return std::nullopt;
  const QPDFObjectHandle::Rectangle r = array.getArrayAsRectangle();
  return Corners{std::min(r.llx, r.urx), std::min(r.lly, r.ury), std::max(r.llx, r.urx),
                 std::max(r.lly, r.ury)};
}

}  // namespace

Findings each_page_commands(
    std::string_view bytes, const std::string& path,
    const std::function<Findings(PageCommands&&, std::size_t, std::size_t)>& each) {
  std::size_t index = 0;
  KnownForms known;
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile(path.c_str(), bytes.data(), bytes.size());
    const auto pages = QPDFPageDocumentHelper(pdf).getAllPages();
    if (pages.size() > most_pages)
      return {error("pdf-large", {path, 0, 0},
                    "the file has more than " + std::to_string(most_pages) + " pages",
                    "look at it in parts")};
    for (QPDFPageObjectHelper helper : pages) {
      PageCommands page;
      page.language = text_of(pdf.getRoot().getKey("/Lang"));
      const auto media = corners(helper.getMediaBox());
      if (!media || media->right - media->left <= 0 || media->top - media->bottom <= 0)
        return {error("pdf-unreadable", {path, static_cast<int>(index) + 1, 0},
                      "the page has no media box")};
      page.x = media->left;
      page.y = media->bottom;
      page.width = media->right - media->left;
      page.height = media->top - media->bottom;
      const auto box = [&](const char* key) -> std::optional<PageBox> {
        const auto c = corners(helper.getAttribute(key, false));
        if (!c) return std::nullopt;
        return PageBox{(c->left - page.x) * mm_per_point,
                       (page.y + page.height - c->top) * mm_per_point,
                       (c->right - c->left) * mm_per_point, (c->top - c->bottom) * mm_per_point};
      };
      page.trim = box("/TrimBox");
      page.bleed = box("/BleedBox");
      page.crop = box("/CropBox");
      if (QPDFObjectHandle unit = helper.getAttribute("/UserUnit", false);
          unit.isNumber() && unit.getNumericValue() > 0)
        page.unit = unit.getNumericValue();
      for (const QPDFObjectHandle& stream : helper.getPageContents()) check_size(stream);
      PageProgress progress;
      Commands reader(page, helper.getAttribute("/Resources", false), {}, {}, progress, known);
      helper.parseContents(&reader);
      if (Findings findings = each(std::move(page), index, pages.size()); !findings.empty())
        return findings;
      ++index;
    }
    return {};
  } catch (const TooMuch&) {
    return {error(
        "pdf-large", {path, static_cast<int>(index) + 1, 0},
        "the page has more commands, forms or points of leaders, or an image of more pixels, than "
        "can be looked at",
        "make the figure simpler")};
  } catch (const std::exception& fault) {
    return {error("pdf-unreadable", {path, 0, 0},
                  "the file is not a PDF that can be read: " + escaped(fault.what()))};
  }
}

}  // namespace platewright::read
