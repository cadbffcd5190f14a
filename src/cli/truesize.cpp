#include <memory>

#include "platewright/true_size.hpp"
#include "real_options.hpp"
#include "verb.hpp"

namespace platewright::cli {
namespace {

struct TrueSizeOptions {
  TrueSizeRequest request;
  RealOptions texts;
};

int run(TrueSizeOptions& options, const Common& common) {
  const Findings faults = read_real_size(options.texts, options.request.size);
  if (has_error(faults)) return say(faults, common);
  return make_and_say("laying out sheets", common, [&] { return make_true_size(options.request, usual_environment()); });
}

}  // namespace

Verb add_truesize(CLI::App& app, const Common& common) {
  auto options = std::make_shared<TrueSizeOptions>();
  TrueSizeRequest& r = options->request;
  CLI::App* command =
      app.add_subcommand("truesize", "Print a figure at true size, on sheets to glue together");
  command->add_option("FIGURE", r.figure, "Figure, an SVG file with anchors")->required();
  add_real_size(*command, r.size, options->texts);
  command->add_option("--terms", r.terms,
                      "Table of terms, YAML or CSV: its names stand beside the parts");
  command->add_option("--set", r.set, "Label set (column) to show; the first one if left out");
  command->add_flag("--blanks", r.blanks, "Lines to write on instead of the names");
  command->add_flag("--outlines", r.outlines, "The figure as outlines to colour in");
  command
      ->add_option("--paper", r.paper,
                   "Paper: a name, WxH with a unit, or letter-a4, which prints right on both")
      ->capture_default_str();
  command->add_option("--overlap", r.overlap,
                      "Strip that neighbouring sheets share; 12mm if left out");
  command->add_option("--style", r.style, "Style: a name (see: platewright styles) or a YAML file")
      ->capture_default_str();
  command->add_option("--title", r.title, "Title, instead of the terms file's");
  command
      ->add_option("--out", r.out,
                   "Output: a .pdf file, a .svg or .png name (a file each page), or a folder")
      ->required();
  command->add_option("--report", r.report, "Also write where each sheet lies, JSON");
  command->footer(
      "Example:\n"
      "  platewright truesize figures/demo/child.svg --age 6 --sex girl --paper letter --out "
      "body.pdf\n"
      "  platewright truesize figures/demo/honeybee.svg --between front,rear=52cm --out bee.pdf\n"
      "Print at 100 %, then measure the ruler on each sheet.");
  return {command, [options, &common] { return run(*options, common); }};
}

}  // namespace platewright::cli
