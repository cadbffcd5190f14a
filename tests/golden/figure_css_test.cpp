// What a figure says of style stays with the figure: its sheets' own type looks
// the same in a browser whatever the figure's CSS aims at.
#include <gmock/gmock.h>

#include <cmath>

#include "golden/browser.hpp"
#include "platewright/engine.hpp"
#include "support/scratch.hpp"

namespace golden {
namespace {

using platewright::SheetKind;

std::string figure(const std::string& css) {
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 200 160\" class=\"plate\">" + css +
         "<title>Plain</title><rect data-anchor=\"left\" x=\"10\" y=\"10\" width=\"80\" "
         "height=\"140\" fill=\"#88aacc\"/><rect data-anchor=\"right\" x=\"110\" y=\"10\" "
         "width=\"80\" height=\"140\" fill=\"#ccaa88\"/></svg>";
}

// The sheet's own texts and labels, one line each: place to a hundredth, size, colour, words.
std::vector<std::string> own(const SeenSheet& sheet) {
  std::vector<std::string> lines;
  const auto round = [](double v) { return std::to_string(std::lround(v * 100)) + " "; };
  for (const SeenText& t : sheet.texts)
    lines.push_back(t.role + " " + round(t.box.x) + round(t.box.y) + round(t.box.w) +
                    round(t.box.h) + round(t.size_pt) + t.colour + " " + t.text);
  for (const SeenLabel& l : sheet.labels)
    lines.push_back(l.anchor + " " + round(l.box.x) + round(l.box.y) + round(l.box.w) + round(l.box.h));
  return lines;
}

TEST(Figure_css, Never_reaches_a_label) {
  const std::vector<std::string> aims = {
      "",
      "text{font-size:90px !important;fill:red !important;display:none}",
      "*{fill:#00ff00 !important;font-size:1px !important;letter-spacing:9px;text-decoration:underline}",
      "svg{font-size:200px;letter-spacing:3em;fill:red;font-family:monospace} g{fill:red !important}",
      "svg text, g text, g > text{fill:red !important;font-weight:900 !important}",
      ".pw-label{display:none !important} .pw-label text{fill:red !important}",
      "[data-anchor]{fill:red !important;opacity:.4} [class]{font-size:70px !important}",
      ":root{font-size:99px;fill:blue} :root text{fill:blue !important}",
      "path{stroke-width:20px !important;d:none} .pw-leader{display:none}",
      "@media all{text{fill:red !important}} @supports (fill:red){text{font-size:80px}}",
      "@namespace s url(http://www.w3.org/2000/svg); s|text, *|*{fill:red !important}",
      "text{fill:red} } text{fill:red !important} {",
      "te\\78t{fill:red !important} :is(text,g){fill:red !important} :not(rect){fill:red !important}",
      "text::before{content:'x'} @font-face{font-family:Andika;src:local('DejaVu Sans Mono')}",
      ".plate ~ *, .plate + *, * ~ *{fill:red !important;font-size:60px !important}",
  };
  const support::Scratch scratch;
  std::vector<Shown> shown;
  support::write(scratch / "t.terms.yaml",
                 "sets:\n  middle: {ages: 7-10, language: en}\nterms:\n"
                 "  left: {middle: Left half}\n  right: {middle: Right half}\n");
  for (std::size_t i = 0; i < aims.size(); ++i) {
    const std::string style = aims[i].empty() ? "" : "<style><![CDATA[" + aims[i] + "]]></style>";
    support::write(scratch / "plain.svg", figure(style));
    platewright::SheetRequest request;
    request.figure = scratch / "plain.svg";
    request.terms = scratch / "t.terms.yaml";
    request.kinds = {SheetKind::poster};
    request.out = scratch / "out.svg";
    const auto made = platewright::make_sheets(request, platewright::usual_environment());
    for (const auto& finding : made.findings())
      EXPECT_NE(finding.severity, platewright::Severity::error) << aims[i] << to_text(finding);
    ASSERT_TRUE(made.ok());
    shown.push_back({aims[i], support::bytes_of(made->files.front()), false});
  }
  // So that the comparison can fail: the same sheet with a style sheet let through.
  std::string leaking = shown.front().svg;
  leaking.insert(leaking.find("<g class=\"pw-figure"), "<style>text{fill:red !important}</style>");
  shown.push_back({"leaking", leaking, false});
  std::vector<SeenSheet> seen = look_at(shown);
  EXPECT_NE(own(seen.back()), own(seen.front()));
  seen.pop_back();
  ASSERT_FALSE(seen.empty());
  ASSERT_FALSE(seen.front().labels.empty());
  // None of the aims moves the drawing, so nothing of the sheet's own may change.
  for (const SeenSheet& sheet : seen) {
    EXPECT_THAT(sheet.faults, testing::IsEmpty()) << sheet.name;
    EXPECT_EQ(own(sheet), own(seen.front())) << sheet.name;
  }
}

}  // namespace
}  // namespace golden
