// A form that a PDF shows many times is read once: what comes out must be what reading it each
// time gives. A form that is written out for each of its uses is read each time.
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "read/finished_commands.hpp"

namespace platewright::read {
namespace {

struct Use {
  double a = 1, b = 0, c = 0, d = 1, e = 0, f = 0;
};

// ISO 32000-1, 7.5: a page of 500 by 700 points that draws forms; without a table of where its
// objects begin, which readers make themselves.
std::string document(const std::vector<std::string>& contents, const std::vector<Use>& uses,
                     bool one_form, const std::string& matrix, int pages) {
  std::string text = "%PDF-1.4\n";
  const auto object = [&](int number, const std::string& body) {
    text += std::to_string(number) + " 0 obj\n" + body + "\nendobj\n";
  };
  const auto stream = [](const std::string& keys, const std::string& body) {
    return "<<" + keys + " /Length " + std::to_string(body.size()) + ">>\nstream\n" + body +
           "\nendstream";
  };
  const int first_form = 10 + 2 * pages;
  std::string names, kids;
  for (std::size_t i = 0; i < uses.size(); ++i) {
    const int form = first_form + (one_form ? 0 : static_cast<int>(i));
    names += "/F" + std::to_string(i) + " " + std::to_string(form) + " 0 R ";
    if (i == 0 || !one_form)
      object(form, stream("/Type /XObject /Subtype /Form /BBox [-1000 -1000 1000 1000] " + matrix +
                              "/Resources <<>>",
                          contents.front()));
  }
  for (int page = 0; page < pages; ++page) {
    std::string drawn;
    for (std::size_t i = 0; i < uses.size(); ++i) {
      const Use& u = uses[(i + static_cast<std::size_t>(page)) % uses.size()];
      drawn += "q ";
      for (const double v : {u.a, u.b, u.c, u.d, u.e, u.f}) drawn += std::to_string(v) + " ";
      drawn += "cm /F" + std::to_string(i) + " Do Q\n";
    }
    const int number = 10 + 2 * page;
    kids += std::to_string(number) + " 0 R ";
    object(number, "<</Type /Page /Parent 2 0 R /MediaBox [0 0 500 700] /Resources <</XObject <<" +
                       names + ">>>> /Contents " + std::to_string(number + 1) + " 0 R>>");
    object(number + 1, stream("", drawn));
  }
  object(2, "<</Type /Pages /Count " + std::to_string(pages) + " /Kids [" + kids + "]>>");
  object(1, "<</Type /Catalog /Pages 2 0 R>>");
  return text + "trailer <</Root 1 0 R>>\n%%EOF\n";
}

std::vector<PageCommands> pages_of(const std::string& bytes) {
  std::vector<PageCommands> pages;
  const Findings findings =
      each_page_commands(bytes, "forms.pdf", [&](PageCommands&& page, std::size_t, std::size_t) {
        pages.push_back(std::move(page));
        return Findings{};
      });
  for (const Finding& f : findings) ADD_FAILURE() << to_text(f);
  return pages;
}

TEST(Known_forms, Come_out_as_if_each_were_read_anew) {
  std::mt19937 random(11);
  const auto in = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
  };
  std::size_t strokes = 0;
  for (int round = 0; round < 60; ++round) {
    std::string body;
    for (int k = 0; k < 6; ++k) {
      body += std::to_string(in(0.1, 4)) + " w " + std::to_string(in(1, 20)) + " M ";
      body += std::to_string(in(-90, 90)) + " " + std::to_string(in(-90, 90)) + " m ";
      for (int p = 0; p < 3; ++p)
        body += std::to_string(in(-90, 90)) + " " + std::to_string(in(-90, 90)) + " l ";
      body += "S ";
      if (k == 2) body += "q 0.5 0.2 -0.2 0.5 3 4 cm ";
      if (k == 4) body += "Q ";
    }
    std::vector<Use> uses;
    for (int k = 0; k < 7; ++k) {
      Use use{in(0.05, 3), 0, 0, in(0.05, 3), in(0, 500), in(0, 700)};
      if (k % 3 == 1) use.d = -use.d;              // mirrored
      if (k == 5) use.b = in(-1, 1), use.c = 0.3;  // turned: never taken from what is known
      if (k == 6) use.a = 0;                       // flattened
      uses.push_back(use);
    }
    const std::string matrix = round % 2 == 0 ? "" : "/Matrix [0.7 0 0 1.3 5 -8] ";
    const auto once = pages_of(document({body}, uses, true, matrix, 2));
    const auto each = pages_of(document({body}, uses, false, matrix, 2));
    ASSERT_EQ(once.size(), 2U);
    ASSERT_EQ(each.size(), 2U);
    for (std::size_t p = 0; p < 2; ++p) {
      ASSERT_EQ(once[p].strokes.size(), each[p].strokes.size());
      ASSERT_EQ(once[p].strokes.size(), 42U);
      for (std::size_t i = 0; i < once[p].strokes.size(); ++i) {
        const FinishedStroke &a = once[p].strokes[i], &b = each[p].strokes[i];
        EXPECT_NEAR(a.width_pt, b.width_pt, 1e-9);
        EXPECT_NEAR(a.box.x, b.box.x, 1e-6);
        EXPECT_NEAR(a.box.y, b.box.y, 1e-6);
        EXPECT_NEAR(a.box.w, b.box.w, 1e-6);
        EXPECT_NEAR(a.box.h, b.box.h, 1e-6);
        EXPECT_EQ(a.miter_limit, b.miter_limit);
        ++strokes;
      }
    }
  }
  EXPECT_EQ(strokes, 60U * 2 * 42);
}

}  // namespace
}  // namespace platewright::read
