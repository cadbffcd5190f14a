#include "real_options.hpp"

#include <charconv>
#include <cmath>

namespace platewright::cli {
namespace {

std::optional<double> number(const std::string& text) {
  double value = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (fault != std::errc{} || end != text.data() + text.size() || !std::isfinite(value))
    return std::nullopt;
  return value;
}

}  // namespace

void add_real_size(CLI::App& command, RealSize& size, RealOptions& texts) {
  command.add_option("--between", size.between,
                     "Two anchors and the real length between them: A,B=118cm");
  command.add_option("--stature", size.stature,
                     "Height of a body, from the anchor crown to the anchor sole: 118cm");
  command.add_option("--age", texts.age,
                     "Average height at this age, 2 to 20 years (CDC growth charts)");
  command.add_option("--sex", size.sex, "Of girls or boys; the mean of both if left out")
      ->check(CLI::IsMember({"girl", "boy"}));
  command.add_option("--percentile", texts.percentile,
                     "Percentile of that age; 50, the median, if left out");
}

Findings read_real_size(const RealOptions& texts, RealSize& size) {
  Findings findings;
  if (!texts.age.empty()) {
    size.age = number(texts.age);
    if (!size.age)
      findings.push_back(error("age-invalid", {"--age", 0, 0},
                               "\"" + texts.age + "\" is not a number of years",
                               "write it as 6 or 6.5"));
  }
  if (!texts.percentile.empty()) {
    size.percentile = number(texts.percentile);
    if (!size.percentile)
      findings.push_back(error("percentile-invalid", {"--percentile", 0, 0},
                               "\"" + texts.percentile + "\" is not a number", "write it as 50"));
  }
  return findings;
}

}  // namespace platewright::cli
