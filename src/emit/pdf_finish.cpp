#include <algorithm>
#include <exception>
#include <memory>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>

#include "base/number.hpp"
#include "emit/check.hpp"
#include "emit/pdf_artifacts.hpp"
#include "emit/pdf_catalog.hpp"
#include "emit/pdf_parts.hpp"

namespace platewright::emit {
namespace {

using Object = QPDFObjectHandle;

Object name(const char* text) { return Object::newName(text); }
Object real(double value) { return Object::newReal(format_number(value, 4)); }
Object unicode(const std::string& utf8) { return Object::newUnicodeString(utf8); }

Object rectangle(double left, double bottom, double right, double top) {
  return Object::newArray({real(left), real(bottom), real(right), real(top)});
}

// Whether what these resources draw mixes with what lies beneath (ISO 32000-1, 11.3.5).
bool blends(Object resources) {
  Object states = resources.getKey("/ExtGState");
  if (!states.isDictionary()) return false;
  for (const std::string& key : states.getKeys()) {
    Object mode = states.getKey(key).getKey("/BM");
    if (!mode.isNull() && !mode.isNameAndEquals("/Normal")) return true;
  }
  return false;
}

// A one-page drawing of Cairo's as a form XObject. Its single content stream is
// taken as it is, compressed; qpdf's own way would unpack and pack it again.
Object form_of(QPDFPageObjectHelper page) {
  Object dictionary = page.getObjectHandle();
  Object form = dictionary.getKey("/Contents");
  if (!form.isStream()) return page.getFormXObjectForPage();
  Object keys = form.getDict();
  keys.replaceKey("/Type", name("/XObject"));
  keys.replaceKey("/Subtype", name("/Form"));
  keys.replaceKey("/BBox", dictionary.getKey("/MediaBox"));
  keys.replaceKey("/Resources", dictionary.getKey("/Resources"));
  // Without a group a form is painted as if its commands stood on the page itself (8.10.1);
  // with one, viewers round each edge's colour once more. Art that blends must not reach the page.
  if (dictionary.hasKey("/Group") && blends(dictionary.getKey("/Resources")))
    keys.replaceKey("/Group", dictionary.getKey("/Group"));
  return form;
}

// Replaces what the placeholders draw; `sources` must live until the document is written.
bool place_art(QPDF& pdf, const std::vector<SharedArt>& arts,
               const std::vector<std::string>& art_pdfs,
               std::vector<std::unique_ptr<QPDF>>& sources) {
  std::vector<Object> forms;
  for (std::size_t i = 0; i < arts.size(); ++i) {
    auto source = std::make_unique<QPDF>();
    source->setSuppressWarnings(true);
    source->processMemoryFile("figure", art_pdfs[i].data(), art_pdfs[i].size());
    const auto pages = QPDFPageDocumentHelper(*source).getAllPages();
    if (pages.size() != 1) return false;
    forms.push_back(pdf.copyForeignObject(form_of(pages.front())));
    sources.push_back(std::move(source));
  }
  std::vector<std::string> marks;
  for (std::size_t i = 0; i < arts.size(); ++i) {
    const auto [red, green, blue] = placeholder_colour(i);
    marks.push_back(format_number(red) + " " + format_number(green) + " " + format_number(blue) +
                    " rg");
  }
  std::vector<bool> placed(arts.size(), false);
  for (Object object : pdf.getAllObjects()) {
    if (!object.isStream() || !object.getDict().getKey("/Subtype").isNameAndEquals("/Form"))
      continue;
    const auto buffer = object.getStreamData(qpdf_dl_generalized);
    if (buffer->getSize() > 400) continue;
    const std::string content(reinterpret_cast<const char*>(buffer->getBuffer()),
                              buffer->getSize());
    const auto mark = std::find_if(marks.begin(), marks.end(), [&](const std::string& m) {
      return content.find(m) != std::string::npos;
    });
    if (mark == marks.end()) continue;
    const auto index = static_cast<std::size_t>(mark - marks.begin());
    // The placeholder's y points down, as Cairo's; the art's page points up.
    object.replaceStreamData("q 1 0 0 -1 0 " + std::to_string(arts[index].rows) + " cm /Art Do Q\n",
                             Object::newNull(), Object::newNull());
    Object resources = Object::newDictionary();
    Object shapes = Object::newDictionary();
    shapes.replaceKey("/Art", forms[index]);
    resources.replaceKey("/XObject", shapes);
    object.getDict().replaceKey("/Resources", resources);
    if (!forms[index].getDict().hasKey("/Group")) object.getDict().removeKey("/Group");
    placed[index] = true;
  }
  return std::all_of(placed.begin(), placed.end(), [](bool p) { return p; });
}

void set_boxes(Object page_object, const compose::Page& page) {
  const double around = surround(page);
  const double wide = (page.width + 2 * around) * points_per_mm;
  const double high = (page.height + 2 * around) * points_per_mm;
  page_object.replaceKey("/MediaBox", rectangle(0, 0, wide, high));
  page_object.replaceKey("/Tabs", name("/S"));  // links in the order of the structure
  if (around <= 0) return;
  const auto inset = [&](double mm) {
    const double by = mm * points_per_mm;
    return rectangle(by, by, wide - by, high - by);
  };
  page_object.replaceKey("/TrimBox", inset(around));
  page_object.replaceKey("/BleedBox", inset(page.slug));
}

void describe_figures(Object element, const std::vector<Object>& pages,
                      const compose::Document& document) {
  Object kids = element.getKey("/K");
  if (element.getKey("/S").isNameAndEquals("/Figure")) {
    Object page = element.getKey("/Pg");
    for (std::size_t i = 0; i < pages.size(); ++i) {
      if (!page.isIndirect() || page.getObjGen() != pages[i].getObjGen()) continue;
      const compose::Page& p = document.pages[i];
      element.replaceKey("/Alt", unicode(p.description.empty() ? p.title : p.description));
    }
  }
  if (kids.isArray())
    for (Object kid : kids.aitems())
      if (kid.isDictionary()) describe_figures(kid, pages, document);
  if (kids.isDictionary()) describe_figures(kids, pages, document);
}

// One Document element over Cairo's sections, languages, alternative texts
// (ISO 32000-1, 14.7 to 14.9).
void finish_structure(QPDF& pdf, const compose::Document& document,
                      const std::vector<Object>& pages) {
  Object tree = pdf.getRoot().getKey("/StructTreeRoot");
  if (!tree.isDictionary()) return;
  Object sections = tree.getKey("/K");
  if (!sections.isArray()) sections = Object::newArray({sections});
  Object whole = pdf.makeIndirectObject(Object::newDictionary());
  whole.replaceKey("/Type", name("/StructElem"));
  whole.replaceKey("/S", name("/Document"));
  whole.replaceKey("/P", tree);
  whole.replaceKey("/K", sections);
  tree.replaceKey("/K", Object::newArray({whole}));
  std::size_t index = 0;
  for (Object section : sections.aitems()) {
    section.replaceKey("/P", whole);
    const std::string& language =
        index < document.pages.size() ? document.pages[index].language : document.language;
    if (language != document.language && !language.empty())
      section.replaceKey("/Lang", unicode(language));
    ++index;
  }
  describe_figures(whole, pages, document);
}

}  // namespace

Result<std::string> finished_pdf(const std::string& drawn, const std::vector<SharedArt>& arts,
                                 const std::vector<std::string>& art_pdfs,
                                 const std::vector<PageMarks>& marks,
                                 const compose::Document& document, const EmitContext& context) {
  try {
    std::vector<std::unique_ptr<QPDF>> sources;
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile("pages", drawn.data(), drawn.size());
    std::vector<Object> pages;
    for (const QPDFPageObjectHelper& page : QPDFPageDocumentHelper(pdf).getAllPages())
      pages.push_back(page.getObjectHandle());
    if (pages.size() != document.pages.size() || !place_art(pdf, arts, art_pdfs, sources))
      return error("pdf-failed", {}, "the drawn pages are not as this version of Cairo draws them",
                   "please report this as a fault of platewright");
    for (std::size_t i = 0; i < pages.size(); ++i) set_boxes(pages[i], document.pages[i]);
    for (std::size_t i = 0; i < pages.size(); ++i)
      QPDFPageObjectHelper(pages[i]).addContentTokenFilter(
          std::make_shared<ArtifactFilter>(marks.at(i)));
    std::vector<OutlineEntry> entries;
    for (std::size_t i = 0; i < pages.size(); ++i)
      if (!document.pages[i].title.empty()) entries.push_back({document.pages[i].title, 0, i});
    set_outline(pdf, entries, pages);
    std::vector<std::string> labels;
    for (const compose::Page& page : document.pages) labels.push_back(page.label);
    set_page_labels(pdf, labels);
    finish_structure(pdf, document, pages);
    set_information(pdf, document, context);

    return written(pdf);
  } catch (const std::exception& fault) {
    return error("pdf-failed", {}, std::string("the PDF can't be finished: ") + fault.what());
  }
}

}  // namespace platewright::emit
