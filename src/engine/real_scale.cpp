#include "engine/real_scale.hpp"

#include <algorithm>

#include "base/nearest.hpp"
#include "base/number.hpp"
#include "base/quote.hpp"

namespace platewright {
namespace {

constexpr std::string_view crown = "crown", sole = "sole";

struct Between {
  std::string from, to;
  Length length;
};

Finding between_fault(const std::string& text) {
  return error("between-invalid", {"--between", 0, 0},
               in_quotes(text) + " is not two anchors and a length",
               "write it as crown,sole=118cm");
}

Result<Length> positive_length(std::string_view text, const char* option) {
  auto length = parse_length(trimmed(text));
  if (!length.ok()) {
    Findings findings = length.findings();
    for (Finding& f : findings) f.at.file = option;
    return findings;
  }
  if (length->mm() <= 0)
    return error("length-invalid", {option, 0, 0}, in_quotes(text) + " is not more than nothing",
                 "give the real length, e.g. 118cm");
  return *length;
}

Result<Between> parse_between(const std::string& text) {
  const std::size_t equals = text.rfind('='), comma = text.find(',');
  if (equals == std::string::npos || comma == std::string::npos || comma > equals)
    return between_fault(text);
  Between b;
  b.from = trimmed(std::string_view(text).substr(0, comma));
  b.to = trimmed(std::string_view(text).substr(comma + 1, equals - comma - 1));
  if (b.from.empty() || b.to.empty()) return between_fault(text);
  auto length = positive_length(std::string_view(text).substr(equals + 1), "--between");
  if (!length.ok()) return length.findings();
  b.length = *length;
  return b;
}

std::optional<Sex> sex_of(const std::string& text) {
  if (text == "girl") return Sex::girl;
  if (text == "boy") return Sex::boy;
  return std::nullopt;
}

Result<Length> stature_of(const RealSize& size) {
  return stature(*size.age, sex_of(size.sex), size.percentile.value_or(50));
}

// The best point of an anchor, with a warning where it is one of several.
const Anchor* find_anchor(const Figure& figure, const std::string& name, const char* option,
                          Findings& findings) {
  const Anchor* anchor = figure.find(name);
  if (anchor == nullptr || anchor->points.empty()) {
    std::vector<std::string_view> known;
    for (const Anchor& a : figure.anchors) known.push_back(a.name);
    findings.push_back(
        error("anchor-unknown", {option, 0, 0}, "the figure has no anchor " + in_quotes(name),
              name == crown || name == sole
                  ? "a figure for a stature needs the anchors crown and sole; or use --between"
                  : did_you_mean(name, known, "see: platewright anchors FIGURE")));
    return nullptr;
  }
  if (anchor->kind != AnchorKind::point)
    findings.push_back(warning("anchor-not-a-point", {option, 0, 0},
                               "the anchor " + in_quotes(name) +
                                   " is not a point; the length counts to " +
                                   "the point where its label's leader would end",
                               "add an anchor that is a point"));
  return anchor;
}

}  // namespace

Findings check_real_size(const RealSize& size) {
  Findings findings;
  std::vector<std::string> given;
  if (!size.between.empty()) given.push_back("--between");
  if (!size.stature.empty()) given.push_back("--stature");
  if (size.age) given.push_back("--age");
  if (given.empty())
    findings.push_back(error("size-missing", {"--stature", 0, 0},
                             "nothing says how large the figure is to be",
                             "give --between A,B=LENGTH, --stature LENGTH or --age YEARS"));
  if (given.size() > 1) {
    std::string all = given[0];
    for (std::size_t i = 1; i < given.size(); ++i)
      all += (i + 1 == given.size() ? " and " : ", ") + given[i];
    findings.push_back(
        error("size-twice", {given[1], 0, 0}, all + " each give a size", "give just one of them"));
  }
  if (!size.between.empty())
    if (auto b = parse_between(size.between); !b.ok())
      findings.insert(findings.end(), b.findings().begin(), b.findings().end());
  if (!size.stature.empty())
    if (auto l = positive_length(size.stature, "--stature"); !l.ok())
      findings.insert(findings.end(), l.findings().begin(), l.findings().end());
  if (!size.sex.empty() && !sex_of(size.sex))
    findings.push_back(error("sex-unknown", {"--sex", 0, 0},
                             in_quotes(size.sex) + " is not in the table of statures",
                             "write girl or boy, or leave it out for the mean of both"));
  if (size.age) {
    if (auto s = stature_of(size); !s.ok())
      findings.insert(findings.end(), s.findings().begin(), s.findings().end());
  } else {
    for (const auto& [there, option] :
         {std::pair{!size.sex.empty(), "--sex"}, {size.percentile.has_value(), "--percentile"}})
      if (there)
        findings.push_back(error("option-idle", {option, 0, 0}, "it says nothing without --age",
                                 "give --age YEARS too"));
  }
  return findings;
}

Result<RealScale> real_scale(const RealSize& size, const Figure& figure) {
  Findings findings = check_real_size(size);
  if (has_error(findings)) return findings;
  RealScale scale;
  const char* option = "--between";
  if (!size.between.empty()) {
    const Between b = *parse_between(size.between);
    scale.from = b.from;
    scale.to = b.to;
    scale.length = b.length;
  } else {
    scale.from = crown;
    scale.to = sole;
    scale.is_stature = true;
    option = size.age ? "--age" : "--stature";
    if (size.age) {
      scale.length = *stature_of(size);
      scale.age = size.age;
      scale.percentile = size.percentile.value_or(50);
      scale.mean_of_both = size.sex.empty();
      if (scale.mean_of_both)
        findings.push_back(warning("stature-mean", {"--age", 0, 0},
                                   "without --sex the stature is the mean of girls' and boys': " +
                                       format_number(scale.length.cm(), 1) + " cm",
                                   "give --sex girl or boy for one of them"));
    } else {
      scale.length = *positive_length(size.stature, "--stature");
    }
  }
  const Anchor* from = find_anchor(figure, scale.from, option, findings);
  const Anchor* to = find_anchor(figure, scale.to, option, findings);
  if (from && to) {
    scale.from_at = from->points.front().at;
    scale.to_at = to->points.front().at;
    const double units = distance(scale.from_at, scale.to_at);
    if (units < 1e-6 * std::max(figure.view_box.w, figure.view_box.h))
      findings.push_back(error("anchors-coincide", {option, 0, 0},
                               "the anchors " + in_quotes(scale.from) + " and " +
                                   in_quotes(scale.to) + " lie on one point",
                               "take two anchors that are apart"));
    else
      scale.mm_per_unit = scale.length.mm() / units;
  }
  if (has_error(findings)) return findings;
  return {scale, findings};
}

}  // namespace platewright
