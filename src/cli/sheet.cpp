#include <algorithm>
#include <memory>

#include "platewright/engine.hpp"
#include "verb.hpp"

namespace platewright::cli {
namespace {

struct SheetOptions {
  SheetRequest request;
  std::vector<std::string> kinds;
  std::string orientation = "auto";
  std::string effort = "usual";
  std::string ages;
  std::string language;
};

// "4-6" or "7".
bool read_ages(const std::string& text, LabelSet& set) {
  const std::size_t dash = text.find('-');
  try {
    std::size_t used = 0;
    set.youngest = std::stoi(text, &used);
    set.oldest = set.youngest;
    if (dash == std::string::npos) return used == text.size();
    if (used != dash) return false;
    set.oldest = std::stoi(text.substr(dash + 1), &used);
    return used == text.size() - dash - 1 && set.oldest >= set.youngest && set.youngest >= 0;
  } catch (const std::exception&) {
    return false;
  }
}

int run(SheetOptions& options, const Common& common) {
  Findings findings;
  SheetRequest& request = options.request;
  for (const std::string& written : options.kinds) {
    const std::size_t from = std::min(written.find_first_not_of(' '), written.size());
    const std::string name = written.substr(from, written.find_last_not_of(' ') + 1 - from);
    auto kind = find_sheet_kind(name);
    if (kind.ok()) {
      request.kinds.push_back(*kind);
    } else {
      for (Finding f : kind.findings()) {
        f.at.file = "--kind";
        findings.push_back(f);
      }
    }
  }
  request.effort = options.effort == "quick"      ? SolveEffort::quick
                   : options.effort == "thorough" ? SolveEffort::thorough
                                                  : SolveEffort::usual;
  request.orientation = options.orientation == "portrait"    ? Orientation::portrait
                        : options.orientation == "landscape" ? Orientation::landscape
                                                             : Orientation::automatic;
  if (!options.ages.empty() || !options.language.empty()) {
    LabelSet set;
    set.name = request.set;
    set.declared = {"--ages", 0, 0};
    if (!options.ages.empty() && !read_ages(options.ages, set))
      findings.push_back(error("ages-invalid", {"--ages", 0, 0},
                               "\"" + options.ages + "\" is not an age or a range of ages",
                               "write it as 7-10"));
    if (!options.language.empty()) set.language = options.language;
    request.sets.push_back(set);
  }
  if (has_error(findings)) return say(findings, common);

  return make_and_say("placing labels", common, [&] { return make_sheets(request, usual_environment()); });
}

}  // namespace

Verb add_sheet(CLI::App& app, const Common& common) {
  auto options = std::make_shared<SheetOptions>();
  SheetRequest& r = options->request;
  CLI::App* command = app.add_subcommand("sheet", "Make sheets of one figure");
  command->add_option("FIGURE", r.figure, "Figure, an SVG file with anchors")->required();
  command->add_option("--terms", r.terms, "Table of terms, YAML or CSV");
  command->add_option("--set", r.set, "Label set (column) to show; the first one if left out");
  std::string kinds;
  for (const SheetKindInfo& info : sheet_kinds())
    kinds += (kinds.empty() ? "" : ", ") + std::string(info.name);
  command->add_option("--kind", options->kinds, "Kinds of sheet, separated by commas: " + kinds)
      ->required()
      ->delimiter(',');
  command->add_option("--paper", r.paper, "Paper: a name (see: platewright papers) or WxH with a unit")
      ->capture_default_str();
  command->add_option("--orientation", options->orientation, "Which way round the paper lies")
      ->check(CLI::IsMember({"auto", "portrait", "landscape"}))
      ->capture_default_str();
  command->add_option("--style", r.style, "Style: a name (see: platewright styles) or a YAML file")
      ->capture_default_str();
  command->add_option("--title", r.title, "Title, instead of the terms file's");
  command->add_option("--out", r.out, "Output: a .pdf, .svg or .png file, or a folder")->required();
  command->add_option("--format", r.format, "Files in a folder: pdf, svg or png");
  command->add_option("--report", r.report,
                      "Also write the report of the placement, JSON; where one is there already, its "
                      "labels stay where they are as far as a change allows");
  command->add_option("--effort", options->effort,
                      "How far the placement is bettered and proven: quick, usual or thorough")
      ->check(CLI::IsMember({"quick", "usual", "thorough"}))
      ->capture_default_str();
  command->add_flag("--fresh", r.fresh, "Place all labels anew, whatever an earlier report says");
  command->add_option("--explain", r.explain,
                      "Also draw how the labels were placed and why, SVG");
  command->add_option("--ages", options->ages, "Ages of a CSV table's set, e.g. 7-10");
  command->add_option("--language", options->language, "Language of a CSV table's set, e.g. en");
  command->add_flag("--word-bank", r.word_bank, "Add a word bank to worksheets");
  command->add_flag("--one-layout", r.one_layout,
                    "Labels where all sets of the table have them, so that their sheets match");
  command->add_flag("--labels", r.labels, "Show labels on colouring pages");
  command
      ->add_option("--seed", r.seed,
                   "Number that shuffles words and deals games; the same number, the same pages")
      ->check([](const std::string& text) {
        return text.find_first_not_of("0123456789") == std::string::npos
                   ? std::string()
                   : "\"" + text + "\" is not a whole number from 0";
      })
      ->capture_default_str();
  command->footer(
      "Example:\n"
      "  platewright sheet figures/demo/heart.svg --terms figures/demo/heart.terms.yaml \\\n"
      "    --set middle --kind poster,worksheet,copywork,key --paper letter --out sheets/\n"
      "With no unit a length is not understood: write 18x24in or 300x400mm.");
  return {command, [options, &common] { return run(*options, common); }};
}

}  // namespace platewright::cli
