#include "engine/page_files.hpp"

#include <algorithm>
#include <filesystem>

#include "base/quote.hpp"

namespace platewright {

Result<PageTarget> page_target(const std::string& out, const std::string& name) {
  namespace fs = std::filesystem;
  if (out.empty())
    return error("out-missing", {"--out", 0, 0}, "no output is named",
                 "give --out with a file or a folder");
  std::error_code ec;
  const fs::path path(out);
  std::string ending = path.extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(), [](char c) {
    return static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
  });
  const std::string stem = (path.parent_path() / path.stem()).string();
  if (!fs::is_directory(path, ec)) {
    if (ending == ".pdf") return PageTarget{PageFormat::pdf, stem, out};
    if (ending == ".svg") return PageTarget{PageFormat::svg, stem, {}};
    if (ending == ".png") return PageTarget{PageFormat::png, stem, {}};
    if (!ending.empty() && ending.size() <= 5 && out.back() != '/')
      return error("out-ending", {"--out", 0, 0}, in_quotes(out) + " ends in " + in_quotes(ending),
                   "end it in .pdf, .svg or .png, or name a folder with a / at its end");
  }
  const std::string inside = (path / name).string();
  return PageTarget{PageFormat::pdf, inside, inside + ".pdf"};
}

Result<std::vector<OutputFile>> page_files(const PageTarget& target,
                                           const compose::Document& document,
                                           const emit::EmitContext& context) {
  std::vector<OutputFile> files;
  Findings findings;
  const auto add = [&](Result<std::string> bytes, std::string path) {
    findings.insert(findings.end(), bytes.findings().begin(), bytes.findings().end());
    if (bytes.ok()) files.push_back({std::move(path), std::move(*bytes)});
    return bytes.ok();
  };
  if (target.format == PageFormat::pdf) {
    if (!add(emit::pdf(document, context), target.single)) return findings;
  } else {
    const bool svg = target.format == PageFormat::svg;
    for (std::size_t i = 0; i < document.pages.size(); ++i)
      if (!add(svg ? emit::svg(document, i, context) : emit::png(document, i, context),
               target.stem + "-" + document.pages[i].label + (svg ? ".svg" : ".png")))
        return findings;
  }
  return {std::move(files), std::move(findings)};
}

}  // namespace platewright
