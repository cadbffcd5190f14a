#include <charconv>
#include <iostream>
#include <memory>

#include "platewright/engine.hpp"
#include "verb.hpp"

namespace platewright::cli {
namespace {

struct AnchorsOptions {
  std::string figure;
  std::string starter;
};

std::string number(double value) {
  char buffer[32];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, 1);
  return {buffer, end.ptr};
}

std::string_view kind_of(const Anchor& anchor) {
  switch (anchor.kind) {
    case AnchorKind::point: return "point";
    case AnchorKind::points: return "points";
    case AnchorKind::region: return "region";
  }
  return "point";
}

int run(const AnchorsOptions& options, const Common& common) {
  const auto figure = read_figure(options.figure);
  Findings findings = figure.findings();
  if (figure.ok() && !options.starter.empty()) {
    const Findings faults = write_starter(*figure, options.figure, options.starter);
    findings.insert(findings.end(), faults.begin(), faults.end());
  }
  const int code = say(findings, common);
  if (!figure.ok() || code != 0 || common.quiet || common.json) return code;
  for (const Anchor& anchor : figure->anchors) {
    std::cout << anchor.name << '\t' << kind_of(anchor);
    // A region has several points to choose from; the first is its best.
    const std::size_t shown = anchor.kind == AnchorKind::points ? anchor.points.size() : 1;
    for (std::size_t i = 0; i < shown && i < anchor.points.size(); ++i)
      std::cout << '\t' << number(anchor.points[i].at.x) << ',' << number(anchor.points[i].at.y);
    std::cout << '\n';
  }
  return code;
}

}  // namespace

Verb add_anchors(CLI::App& app, const Common& common) {
  auto options = std::make_shared<AnchorsOptions>();
  CLI::App* command =
      app.add_subcommand("anchors", "List a figure's anchors, or start a terms file for it");
  command->add_option("FIGURE", options->figure, "Figure, an SVG file")->required();
  command->add_option("--starter", options->starter, "Write a terms file to fill in");
  command->footer(
      "Example:\n  platewright anchors figures/demo/heart.svg --starter heart-new.terms.yaml");
  return {command, [options, &common] { return run(*options, common); }};
}

}  // namespace platewright::cli
