#include <charconv>
#include <memory>

#include "platewright/true_size.hpp"
#include "real_options.hpp"
#include "verb.hpp"

namespace platewright::cli {
namespace {

struct PiecesOptions {
  PiecesRequest request;
  RealOptions texts;
  std::string factor, for_age;
};

template <class Number>
bool read_number(const std::string& text, Number& value) {
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  return fault == std::errc{} && end == text.data() + text.size();
}

int run(PiecesOptions& options, const Common& common) {
  Findings faults = read_real_size(options.texts, options.request.size);
  if (!options.factor.empty() && !read_number(options.factor, options.request.factor))
    faults.push_back(error("factor-range", {"--factor", 0, 0},
                           "\"" + options.factor + "\" is not a number",
                           "1 is true size, 2 twice that"));
  if (int age = 0; !options.for_age.empty()) {
    if (read_number(options.for_age, age))
      options.request.for_age = age;
    else
      faults.push_back(error("age-invalid", {"--for-age", 0, 0},
                             "\"" + options.for_age + "\" is not an age in years",
                             "write it as 6"));
  }
  if (has_error(faults)) return say(faults, common);
  return make_and_say("laying out pieces", common, [&] { return make_pieces(options.request, usual_environment()); });
}

}  // namespace

Verb add_pieces(CLI::App& app, const Common& common) {
  auto options = std::make_shared<PiecesOptions>();
  PiecesRequest& r = options->request;
  CLI::App* command =
      app.add_subcommand("pieces", "Print parts of a figure to cut out, at true size");
  command->add_option("FIGURE", r.figure, "Figure, an SVG file with anchors")->required();
  add_real_size(*command, r.size, options->texts);
  command->add_option("--factor", options->factor, "Times the true size; 1 if left out");
  command
      ->add_option("--regions", r.regions,
                   "Regions to cut out, separated by commas; those with a term if left out")
      ->delimiter(',');
  command->add_option("--terms", r.terms, "Table of terms, YAML or CSV: names on the pieces");
  command->add_option("--set", r.set, "Label set (column) to show; the first one if left out");
  command->add_option("--for-age", options->for_age,
                      "Who cuts: the cut line is wide and round under 6 years");
  command->add_flag("--outlines", r.outlines, "Pieces as outlines to colour in");
  command->add_flag("--flap", r.flap, "A flap at the top of each piece, to fold and glue");
  command
      ->add_option("--paper", r.paper,
                   "Paper: a name, WxH with a unit, or letter-a4, which prints right on both")
      ->capture_default_str();
  command->add_option("--overlap", r.overlap,
                      "Strip that sheets of a piece larger than a page share");
  command->add_option("--style", r.style, "Style: a name (see: platewright styles) or a YAML file")
      ->capture_default_str();
  command->add_option("--title", r.title, "Title, instead of the terms file's");
  command
      ->add_option("--out", r.out,
                   "Output: a .pdf file, a .svg or .png name (a file each page), or a folder")
      ->required();
  command->add_option("--report", r.report, "Also write where each piece lies, JSON");
  command->footer(
      "Example:\n"
      "  platewright pieces figures/demo/child.svg --age 6 --terms figures/demo/child.terms.yaml "
      "\\\n"
      "    --set middle --paper letter --out pieces.pdf\n"
      "The numbers tell the order in which the pieces are laid on the body.");
  return {command, [options, &common] { return run(*options, common); }};
}

}  // namespace platewright::cli
