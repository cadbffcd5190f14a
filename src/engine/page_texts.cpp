#include "engine/page_texts.hpp"

#include "base/quote.hpp"
#include "compose/frame.hpp"
#include "read/read.hpp"
#include "text/text.hpp"

namespace platewright {

std::string page_path(const PackPlan& plan, const std::string& name, const LabelSet& set) {
  for (const PackPage& page : plan.manifest().pages)
    if (page.name == name) return std::string(page.file.text_for(set));
  return {};
}

Result<PageTexts> read_page_texts(const PackPlan& plan) {
  Findings findings;
  PageTexts texts;
  const text::Typesetter typesetter;
  for (const PackPage& page : plan.manifest().pages)
    for (const PackEdition& edition : plan.editions) {
      const std::string path = page_path(plan, page.name, edition.set);
      if (path.empty() || texts.contains(path)) continue;
      auto bytes = read::file_bytes(path, read::Limits{}.file_bytes);
      if (!bytes.ok()) {
        for (Finding f : bytes.findings()) {
          f.message = in_quotes(f.at.file) + ": " + f.message;
          f.at = page.declared;
          findings.push_back(std::move(f));
        }
        texts[path] = {};
        continue;
      }
      auto text = read::page_text(*bytes, path);
      findings.insert(findings.end(), text.findings().begin(), text.findings().end());
      texts[path] = text.ok() ? std::move(*text) : PageText{};
      const text::Font font{compose::faces(plan.style_of(edition)), Length::pt(10), false, false};
      for (const PageBlock& block : texts[path].blocks)
        if (!typesetter.missing(block.text, font).empty())
          findings.push_back(error("glyph-missing", block.at,
                                   "no face of " + in_quotes(font.face) +
                                       " has a character of this text",
                                   "install a face that has it, and name it under type: "
                                   "further-faces"));
    }
  findings = sorted(std::move(findings));
  if (has_error(findings)) return findings;
  return {std::move(texts), std::move(findings)};
}

}  // namespace platewright
