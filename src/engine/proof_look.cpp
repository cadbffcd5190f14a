#include "engine/proof_look.hpp"

#include "engine/proof_report.hpp"

namespace platewright::proofing {
namespace {

Result<read::Finished> read_file(const Look& look, const read::EachPage& each) {
  return look.is_pdf ? read::finished_pdf(look.bytes, look.path, each)
                     : read::finished_svg(look.bytes, look.path, each);
}

}  // namespace

Looked looked_at(const Look& look) {
  Looked out;
  Sink sink(out.found, look.left_out);
  auto file = read_file(look, [&](read::FinishedPage& page, std::size_t index) {
    sink.on(look.path, index);
    page_rules(page, look.limits, look.text_floor, sink);
    colour_rules(page, look.limits, sink);
    leader_rules(page, look.limits, sink);
    sheet_rules(page, look.limits, sink);
    if (look.words) term_rule(page, *look.words, sink);
    out.ink.push_back(ink_percent(page.pixels));
    // Only words are kept, for the check codes; `= {}` would keep a vector's memory.
    read::FinishedPage kept;
    kept.words = std::move(page.words);
    page = std::move(kept);
  });
  if (!file.ok()) {
    out.faults = file.findings();
    return out;
  }
  out.file = std::move(*file);
  font_rule(out.file, sink);
  return out;
}

std::vector<std::string> pictures_of(const Look& look, const std::vector<ProofPlace>& places) {
  std::vector<std::string> pictures(places.size());
  read_file(look, [&](read::FinishedPage& page, std::size_t index) {
    for (std::size_t i = 0; i < places.size(); ++i)
      if (places[i].finding.at.line == static_cast<int>(index) + 1)
        pictures[i] = picture(page, places[i].at);
    page = read::FinishedPage();
  });
  return pictures;
}

}  // namespace platewright::proofing
