// The figure is stored once in a tiled PDF. Here qpdf writes the figure's own
// commands out on every page instead, and nothing changes, not in one pixel.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#define POINTERHOLDER_TRANSITION 4
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include "platewright/true_size.hpp"
#include "raster.hpp"
#include "support/demo.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace true_size_test {
namespace {

using Object = QPDFObjectHandle;

std::string text_of(Object stream) {
  const auto buffer = stream.getStreamData(qpdf_dl_generalized);
  return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
}

// The form that `/NAME Do` of a page draws, if that one draws the stored figure.
Object art_in(Object form) {
  Object shapes = form.getDict().getKey("/Resources").getKey("/XObject");
  return shapes.isDictionary() ? shapes.getKey("/Art") : Object::newNull();
}

// `text` with every "/key" of the figure's resources renamed to "/Artkey".
std::string renamed(const std::string& text, const std::vector<std::string>& keys) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] != '/') {
      out += text[i++];
      continue;
    }
    std::size_t end = i + 1;
    while (end < text.size() && std::isalnum(static_cast<unsigned char>(text[end]))) ++end;
    const std::string key = text.substr(i, end - i);
    const bool ours = std::find(keys.begin(), keys.end(), key) != keys.end();
    out += ours ? "/Art" + key.substr(1) : key;
    i = end;
  }
  return out;
}

// Replaces the figure's form by its commands on every page; how many pages it was on.
int written_out(const std::string& from, const std::string& to) {
  QPDF pdf;
  pdf.processFile(from.c_str());
  int pages = 0;
  for (auto& page : QPDFPageDocumentHelper(pdf).getAllPages()) {
    Object resources = page.getObjectHandle().getKey("/Resources").shallowCopy();
    Object shapes = resources.getKey("/XObject");
    if (!shapes.isDictionary()) continue;
    page.coalesceContentStreams();
    std::string content = text_of(page.getObjectHandle().getKey("/Contents"));
    bool found = false;
    for (const std::string& name : shapes.getKeys()) {
      Object placeholder = shapes.getKey(name), art = art_in(placeholder);
      if (!art.isStream()) continue;
      Object theirs = art.getDict().getKey("/Resources");
      std::vector<std::string> keys;
      for (const std::string& kind : theirs.getKeys()) {
        Object all = resources.getKey(kind);
        all = all.isDictionary() ? all.shallowCopy() : Object::newDictionary();
        Object some = theirs.getKey(kind);
        if (!some.isDictionary()) continue;
        for (const std::string& key : some.getKeys()) {
          keys.push_back(key);
          all.replaceKey("/Art" + key.substr(1), some.getKey(key));
        }
        resources.replaceKey(kind, all);
      }
      const auto matrix = support::between(text_of(placeholder), "q", "/Art Do");
      if (matrix.empty()) continue;
      const std::string commands =
          "q " + matrix.front() + renamed(text_of(art), keys) + "\nQ\n";
      const std::string call = name + " Do";
      const std::size_t at = content.find(call);
      if (at == std::string::npos) continue;
      content.replace(at, call.size(), commands);
      found = true;
    }
    if (!found) continue;
    ++pages;
    page.getObjectHandle().replaceKey("/Resources", resources);
    page.getObjectHandle().replaceKey("/Contents", Object::newStream(&pdf, content));
  }
  QPDFWriter(pdf, to.c_str()).write();
  return pages;
}

TEST(Sheets, Look_the_same_to_the_last_pixel_with_the_figure_written_out_on_every_page) {
  const support::Scratch scratch;
  platewright::TrueSizeRequest request;
  request.figure = support::demo_svg("child");
  request.size.stature = "115cm";
  request.paper = "letter";
  request.out = scratch / "shared.pdf";
  ASSERT_TRUE(platewright::make_true_size(request, platewright::usual_environment()).ok());
  const std::string plain = scratch / "plain.pdf";
  const int pages = written_out(request.out, plain);
  ASSERT_GE(pages, 10);
  // So much larger would the file be.
  EXPECT_GT(support::bytes_of(plain).size(), 5 * support::bytes_of(request.out).size());
  for (int page = 2; page <= pages + 1; ++page) {
    const Grey shared = page_of(request.out, page, 150, scratch.path());
    const Grey direct = page_of(plain, page, 150, scratch.path());
    ASSERT_EQ(shared.values.size(), direct.values.size());
    EXPECT_TRUE(shared.values == direct.values) << "page " << page;
    EXPECT_LT(*std::min_element(shared.values.begin(), shared.values.end()), 128);
  }
}

}  // namespace
}  // namespace true_size_test
