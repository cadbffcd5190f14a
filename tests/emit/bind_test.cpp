// Finished PDFs bound into one.
#include "emit/bind.hpp"

#include <gtest/gtest.h>

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>

#include "pages.hpp"

namespace platewright::emit {
namespace {

std::string part_of(const std::string& words, int pages) {
  Sheet sheet;
  for (int i = 0; i < pages; ++i)
    sheet.add_page().items.push_back(sheet.text(words + std::to_string(i), {30, 40}));
  return *pdf(sheet.document, sheet.context);
}

TEST(Bind, Takes_the_pages_that_it_is_told_in_that_order_with_their_labels) {
  Sheet own;
  own.add_page().items.push_back(own.text("cover", {30, 40}));
  const std::string first = part_of("heart", 2), second = part_of("eye", 1);
  Binding binding;
  binding.own = own.document;
  binding.parts = {first, second};
  binding.pages = {{-1, 0, -1, "1"}, {1, 0, -1, "2"}, {0, 1, -1, "K1"}, {0, 0, -1, "K2"}};
  binding.bookmarks = {{"Cover", 0, 0}, {"Keys", 0, 2}, {"Heart", 1, 2}, {"Again", 1, 3}};
  BoundLink link;
  link.box = {10, 20, 50, 5};
  link.to = 2;
  link.says = "keys";
  binding.links = {link};
  const auto bound = bound_pdf(binding, own.context);
  ASSERT_TRUE(bound.ok());

  QPDF read;
  read.processMemoryFile("bound", bound->data(), bound->size());
  auto pages = QPDFPageDocumentHelper(read).getAllPages();
  ASSERT_EQ(pages.size(), 4U);
  QPDFObjectHandle labels = read.getRoot().getKey("/PageLabels").getKey("/Nums");
  ASSERT_EQ(labels.getArrayNItems(), 4);
  EXPECT_EQ(labels.getArrayItem(2).getIntValue(), 2);
  EXPECT_EQ(labels.getArrayItem(3).getKey("/P").getUTF8Value(), "K");
  QPDFObjectHandle note = pages[0].getObjectHandle().getKey("/Annots").getArrayItem(0);
  EXPECT_EQ(note.getKey("/Dest").getArrayItem(0).getObjGen(), pages[2].getObjectHandle().getObjGen());
  // 20 mm from the top of a page 297 mm high, in points.
  EXPECT_NEAR(note.getKey("/Rect").getArrayItem(3).getNumericValue(), (297 - 20) * 72 / 25.4, 0.01);
  QPDFObjectHandle outline = read.getRoot().getKey("/Outlines");
  EXPECT_EQ(outline.getKey("/Count").getIntValue(), 2);
  EXPECT_EQ(outline.getKey("/Last").getKey("/Count").getIntValue(), -2);
  EXPECT_EQ(outline.getKey("/Last").getKey("/First").getKey("/Title").getUTF8Value(), "Heart");
  EXPECT_EQ(*bound_pdf(binding, own.context), *bound);
}

TEST(Bind, Refuses_a_part_that_is_no_pdf_or_has_too_few_pages) {
  Sheet own;
  own.add_page();
  Binding binding;
  binding.own = own.document;
  const std::string broken = "not a PDF", one = part_of("heart", 1);
  binding.parts = {broken};
  binding.pages = {{-1, 0, -1, "1"}, {0, 0, -1, "2"}};
  const auto code = [&] {
    const auto bound = bound_pdf(binding, own.context);
    return bound.ok() ? std::string("none") : bound.findings().front().code;
  };
  EXPECT_EQ(code(), "part-unreadable");
  binding.parts = {one};
  EXPECT_EQ(code(), "none");
  binding.pages[1].page = 1;
  EXPECT_EQ(code(), "part-unreadable");
}

}  // namespace
}  // namespace platewright::emit
