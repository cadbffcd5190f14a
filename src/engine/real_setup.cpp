#include "engine/real_setup.hpp"

#include "compose/guides.hpp"

namespace platewright {
namespace {

std::string shown_name(const Loaded& loaded, const std::string& anchor) {
  for (const SetLabel& label : loaded.labels)
    if (label.anchor == anchor) return label.wording->text;
  return anchor;
}

}  // namespace

Result<RealSetup> real_setup(const SheetRequest& sheet, const RealSize& size,
                             const std::string& paper, const std::string& overlap,
                             const std::string& out, const std::string& suffix,
                             const Environment& environment) {
  Findings findings = check_real_size(size);
  const auto collect = [&](const Findings& more) {
    findings.insert(findings.end(), more.begin(), more.end());
  };
  RealSetup setup;
  auto loaded = load(sheet, environment);
  collect(loaded.findings());
  if (loaded.ok()) setup.loaded = std::move(*loaded);
  const Style& style = setup.loaded.style;

  if (auto target = page_target(out, setup.loaded.figure.name + suffix); target.ok())
    setup.target = *target;
  else
    collect(target.findings());
  if (auto found = real_paper(paper, style); found.ok())
    setup.paper = *found;
  else
    collect(found.findings());
  setup.overlap = style.true_size.overlap;
  if (!overlap.empty()) {
    auto asked = parse_length(overlap);
    if (!asked.ok()) {
      Findings faults = asked.findings();
      for (Finding& f : faults) f.at.file = "--overlap";
      collect(faults);
    } else if (asked->mm() < 5 || asked->mm() > 40) {
      findings.push_back(
          error("overlap-range", {"--overlap", 0, 0},
                "an overlap of " + format_mm(*asked) + " is not between 5 mm and 40 mm",
                "10 to 15 mm hold glue well"));
    } else {
      setup.overlap = *asked;
    }
  }
  if (has_error(findings)) return findings;

  auto scale = real_scale(size, setup.loaded.figure);
  collect(scale.findings());
  if (!scale.ok()) return findings;
  setup.scale = *scale;
  const Words& words = setup.loaded.words;
  const std::string said = compose::written(compose::said_length(scale->length), words);
  setup.length_text = scale->is_stature ? fill(words.at("stature-length"), "length", said)
                                        : fill(fill(fill(words.at("between-length"), "from",
                                                         shown_name(setup.loaded, scale->from)),
                                                    "to", shown_name(setup.loaded, scale->to)),
                                               "length", said);
  return {std::move(setup), std::move(findings)};
}

}  // namespace platewright
