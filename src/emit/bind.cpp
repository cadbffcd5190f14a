#include "emit/bind.hpp"

#include <exception>
#include <map>
#include <memory>
#include <qpdf/Buffer.hh>
#include <qpdf/Pl_Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QPDFTokenizer.hh>

#include "base/number.hpp"
#include "emit/check.hpp"
#include "emit/pdf_catalog.hpp"
#include "emit/pdf_parts.hpp"

namespace platewright::emit {
namespace {

using Object = QPDFObjectHandle;

Object real(double value) { return Object::newReal(format_number(value, 4)); }

// Takes the marks of structure out of a page's content.
class WithoutMarks : public Object::TokenFilter {
 public:
  void handleToken(const QPDFTokenizer::Token& token) override {
    held_.push_back(token);
    if (token.getType() != QPDFTokenizer::tt_word) return;
    const std::string& word = token.getValue();
    if (word != "BDC" && word != "BMC" && word != "EMC") flush();
    held_.clear();
  }
  void handleEOF() override { flush(); }

 private:
  void flush() {
    for (const QPDFTokenizer::Token& token : held_) writeToken(token);
    held_.clear();
  }
  std::vector<QPDFTokenizer::Token> held_;
};

// A PDF that pages are taken from.
struct Source {
  std::unique_ptr<QPDF> pdf;
  std::vector<Object> pages;
  std::vector<Object> sections;       // one structure element a page
  std::map<long long, Object> parents;  // of the parent tree
};

Source opened(std::string_view bytes, const char* what) {
  Source source;
  source.pdf = std::make_unique<QPDF>();
  source.pdf->setSuppressWarnings(true);
  source.pdf->processMemoryFile(what, bytes.data(), bytes.size());
  for (const QPDFPageObjectHelper& page : QPDFPageDocumentHelper(*source.pdf).getAllPages())
    source.pages.push_back(page.getObjectHandle());
  Object tree = source.pdf->getRoot().getKey("/StructTreeRoot");
  if (!tree.isDictionary()) return source;
  for (Object document : tree.getKey("/K").aitems())
    for (Object section : document.getKey("/K").aitems()) source.sections.push_back(section);
  Object numbers = tree.getKey("/ParentTree").getKey("/Nums");
  if (numbers.isArray())
    for (int i = 0; i + 1 < numbers.getArrayNItems(); i += 2)
      source.parents.emplace(numbers.getArrayItem(i).getIntValue(), numbers.getArrayItem(i + 1));
  return source;
}

// Lays the content of a page over another, as an artifact at its foot
// (ISO 32000-1, 14.8.2.2).
void lay_over(QPDF& pdf, Object page, Object running) {
  Pl_Buffer content("running line");
  WithoutMarks filter;
  QPDFPageObjectHelper(running).filterContents(&filter, &content);
  const std::shared_ptr<Buffer> bytes = content.getBufferSharedPointer();
  Object form = pdf.newStream(
      std::string(reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize()));
  Object keys = form.getDict();
  keys.replaceKey("/Type", Object::newName("/XObject"));
  keys.replaceKey("/Subtype", Object::newName("/Form"));
  keys.replaceKey("/BBox", running.getKey("/MediaBox"));
  keys.replaceKey("/Resources", running.getKey("/Resources"));
  // The page's own resources may be shared with other pages.
  Object resources = page.getKey("/Resources");
  resources = resources.isDictionary() ? resources.shallowCopy() : Object::newDictionary();
  Object shapes = resources.getKey("/XObject");
  shapes = shapes.isDictionary() ? shapes.shallowCopy() : Object::newDictionary();
  shapes.replaceKey("/RunningLine", form);
  resources.replaceKey("/XObject", shapes);
  page.replaceKey("/Resources", resources);
  QPDFPageObjectHelper helper(page);
  helper.addPageContents(pdf.newStream("q\n"), true);
  helper.addPageContents(
      pdf.newStream("\nQ\n/Artifact <</Type /Pagination /Subtype /Footer>> BDC\n"
                    "q /RunningLine Do Q\nEMC\n"),
      false);
}

Object annotation(const BoundLink& link, const compose::Page& on,
                  const std::vector<Object>& pages) {
  const double around = surround(on);
  const double high = on.height + 2 * around;
  const auto x = [&](double mm) { return real((around + mm) * points_per_mm); };
  const auto y = [&](double mm) { return real((high - around - mm) * points_per_mm); };
  Object note = Object::newDictionary();
  note.replaceKey("/Type", Object::newName("/Annot"));
  note.replaceKey("/Subtype", Object::newName("/Link"));
  note.replaceKey("/Rect", Object::newArray({x(link.box.left()), y(link.box.bottom()),
                                             x(link.box.right()), y(link.box.top())}));
  const Object none = Object::newInteger(0);
  note.replaceKey("/Border", Object::newArray({none, none, none}));
  note.replaceKey("/F", Object::newInteger(4));  // printed, as nothing
  if (!link.says.empty()) note.replaceKey("/Contents", Object::newUnicodeString(link.says));
  if (link.to) {
    note.replaceKey("/Dest", Object::newArray({pages[*link.to], Object::newName("/Fit")}));
  } else {
    Object action = Object::newDictionary();
    action.replaceKey("/S", Object::newName("/URI"));
    action.replaceKey("/URI", Object::newString(link.address));
    note.replaceKey("/A", action);
  }
  return note;
}

Result<std::string> bound(const Binding& binding, const std::string& own_bytes,
                          const EmitContext& context) {
  std::vector<Source> sources;  // the own document first
  sources.push_back(opened(own_bytes, "own pages"));
  for (const std::string_view part : binding.parts) sources.push_back(opened(part, "a part"));

  QPDF pdf;
  pdf.emptyPDF();
  QPDFPageDocumentHelper all(pdf);
  std::vector<Object> pages;
  for (const BoundPage& bound_page : binding.pages) {
    Source& source = sources[static_cast<std::size_t>(bound_page.part + 1)];
    if (bound_page.page >= source.pages.size())
      return error("part-unreadable", {}, "a part has fewer pages than it says",
                   "delete the cache and run it again");
    Object page = pdf.copyForeignObject(source.pages[bound_page.page]);
    all.addPage(page, false);
    pages.push_back(page);
  }

  // Structure: the pages' sections in the order of the pages.
  Object tree = pdf.makeIndirectObject(Object::newDictionary());
  Object whole = pdf.makeIndirectObject(Object::newDictionary());
  Object kids = Object::newArray();
  Object numbers = Object::newArray();
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const BoundPage& from = binding.pages[i];
    Source& source = sources[static_cast<std::size_t>(from.part + 1)];
    if (from.page < source.sections.size()) {
      Object section = pdf.copyForeignObject(source.sections[from.page]);
      section.replaceKey("/P", whole);
      kids.appendItem(section);
    }
    Object key = pages[i].getKey("/StructParents");
    if (!key.isInteger()) continue;
    const auto parents = source.parents.find(key.getIntValue());
    pages[i].removeKey("/StructParents");
    if (parents == source.parents.end()) continue;
    Object list = parents->second;
    if (!list.isIndirect()) list = source.pdf->makeIndirectObject(list);
    pages[i].replaceKey("/StructParents", Object::newInteger(static_cast<long long>(i)));
    numbers.appendItem(Object::newInteger(static_cast<long long>(i)));
    numbers.appendItem(pdf.copyForeignObject(list));
  }
  whole.replaceKey("/Type", Object::newName("/StructElem"));
  whole.replaceKey("/S", Object::newName("/Document"));
  whole.replaceKey("/P", tree);
  whole.replaceKey("/K", kids);
  Object parent_tree = pdf.makeIndirectObject(Object::newDictionary());
  parent_tree.replaceKey("/Nums", numbers);
  tree.replaceKey("/Type", Object::newName("/StructTreeRoot"));
  tree.replaceKey("/K", Object::newArray({whole}));
  tree.replaceKey("/ParentTree", parent_tree);
  tree.replaceKey("/ParentTreeNextKey", Object::newInteger(static_cast<long long>(pages.size())));
  pdf.getRoot().replaceKey("/StructTreeRoot", tree);
  Object marked = Object::newDictionary();
  marked.replaceKey("/Marked", Object::newBool(true));
  pdf.getRoot().replaceKey("/MarkInfo", marked);

  for (std::size_t i = 0; i < pages.size(); ++i) {
    const int running = binding.pages[i].running;
    if (running < 0) continue;
    lay_over(pdf, pages[i],
             pdf.copyForeignObject(sources.front().pages[static_cast<std::size_t>(running)]));
  }
  std::map<std::size_t, Object> notes;
  for (const BoundLink& link : binding.links) {
    auto& list = notes.try_emplace(link.page, Object::newArray()).first->second;
    const compose::Page& on = binding.own.pages[binding.pages[link.page].page];
    list.appendItem(pdf.makeIndirectObject(annotation(link, on, pages)));
  }
  for (auto& [page, list] : notes) pages[page].replaceKey("/Annots", list);

  std::vector<OutlineEntry> outline;
  for (const BoundBookmark& mark : binding.bookmarks)
    outline.push_back({mark.title, mark.level, mark.page});
  set_outline(pdf, outline, pages);
  std::vector<std::string> labels;
  for (const BoundPage& page : binding.pages) labels.push_back(page.label);
  set_page_labels(pdf, labels);
  set_information(pdf, binding.own, context);
  return written(pdf);
}

}  // namespace

Result<std::string> bound_pdf(const Binding& binding, const EmitContext& context) {
  const Result<std::string> own = pdf(binding.own, context);
  if (!own) return own.findings();
  try {
    return bound(binding, *own, context);
  } catch (const std::exception& fault) {
    return error("part-unreadable", {}, std::string("the parts can't be bound: ") + fault.what(),
                 "delete the cache and run it again");
  }
}

}  // namespace platewright::emit
