// Reads finished files and goes through the rules; one report of all.
#include "platewright/proof.hpp"

#include <algorithm>
#include <filesystem>
#include <tuple>

#include "base/quote.hpp"
#include "engine/deadline.hpp"
#include "engine/figure_file.hpp"
#include "engine/proof_report.hpp"
#include "engine/proof_rules.hpp"
#include "engine/write.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

namespace fs = std::filesystem;

constexpr double seconds_a_file = 120;

std::string ending_of(const fs::path& path) {
  std::string ending = path.extension().string();
  for (char& c : ending) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
  return ending;
}

// The files that are meant, in order: those named, and all in the folders named.
std::vector<std::string> files_of(const std::vector<std::string>& paths, Findings& findings) {
  std::vector<std::string> files;
  for (const std::string& path : paths) {
    std::error_code ec;
    if (fs::is_directory(path, ec)) {
      std::vector<std::string> inside;
      for (fs::recursive_directory_iterator at(path, ec), end; !ec && at != end; at.increment(ec)) {
        const std::string ending = ending_of(at->path());
        if (at->is_regular_file(ec) && (ending == ".pdf" || ending == ".svg"))
          inside.push_back(at->path().string());
      }
      if (inside.empty())
        findings.push_back(error("proof-nothing", {path, 0, 0},
                                 "the folder holds no finished sheets", "name PDF or SVG files"));
      std::sort(inside.begin(), inside.end());
      files.insert(files.end(), inside.begin(), inside.end());
    } else if (const std::string ending = ending_of(path); ending != ".pdf" && ending != ".svg") {
      findings.push_back(error("proof-nothing", {path, 0, 0}, "this is no finished sheet",
                               "name PDF or SVG files, or a folder of them"));
    } else {
      files.push_back(path);
    }
  }
  return files;
}

Result<read::Finished> finished(const std::string& path) {
  auto bytes = read::file_bytes(path, std::size_t{256} << 20);
  if (!bytes.ok()) return bytes.findings();
  const bool pdf = ending_of(path) == ".pdf";
  auto read = within(seconds_a_file, [text = std::move(*bytes), path, pdf] {
    return pdf ? read::finished_pdf(text, path) : read::finished_svg(text, path);
  });
  if (!read)
    return error("proof-slow", {path, 0, 0}, "looking at the file takes more than two minutes",
                 "look at it in parts");
  return std::move(*read);
}

std::vector<proofing::CodeWords> code_words(const Environment& environment) {
  std::vector<proofing::CodeWords> all;
  for (const char* language : {"en", "de", "es", "fr"}) {
    const auto words = read::words(language, environment.style_folders);
    if (!words.ok()) continue;
    const std::string code = words->at("fingerprint");
    all.push_back({code.substr(0, code.find("{code}")), words->at("key-mark")});
  }
  return all;
}

}  // namespace

const std::vector<ProofRule>& proof_rules() {
  static const std::vector<ProofRule> rules = {
      {1, "proof-boxes", "A printer cuts along the trim box; boxes that stick out are cut wrongly."},
      {2, "proof-page-size", "Paper of an odd size is scaled to fit, and sizes no longer hold."},
      {3, "proof-font", "A font that is not in the file is replaced, and words run into each other."},
      {4, "proof-text-small", "Type below the floor for its readers' age is not read but guessed."},
      {5, "proof-line-thin", "Lines under 0.25 pt break or vanish in print."},
      {6, "proof-contrast", "Text too like its ground is lost on a poor printer or in poor light."},
      {7, "proof-colours-merge", "Parts told apart by colour alone are one part in a grey copy, and to one boy in twelve."},
      {8, "proof-image-coarse", "Under 150 pixels in an inch a picture falls into squares."},
      {9, "proof-image-soft", "Under 300 pixels in an inch a picture looks soft from near."},
      {10, "proof-edge", "Most printers leave 3 mm and more of the paper's edge white."},
      {11, "proof-bleed", "No cutter cuts exactly; without a bleed a white line shows."},
      {12, "proof-ink", "A page full of ink costs, curls and comes off on hands."},
      {13, "proof-labels-overlap", "Two labels in one place can't be read."},
      {14, "proof-leaders-cross", "Readers follow crossing leaders to the wrong part."},
      {15, "proof-check-code", "A key from another version marks right answers wrong."},
      {16, "proof-ruler", "A ruler that is not true means that nothing on the sheet is."},
  };
  return rules;
}

Result<ProofOutcome> proof(const ProofRequest& request, const Environment& environment) {
  Findings findings;
  const std::vector<std::string> paths = files_of(request.paths, findings);
  const auto style = read::style(request.style, environment.style_folders);
  findings.insert(findings.end(), style.findings().begin(), style.findings().end());
  if (has_error(findings)) return findings;

  ProofOutcome out;
  proofing::Sink sink(out.found);
  std::optional<Length> floor;
  if (request.age) floor = style->for_age(*request.age).text_floor;
  std::vector<read::Finished> files;
  for (const std::string& path : paths) {
    auto file = finished(path);
    if (!file.ok()) {
      for (const Finding& fault : file.findings()) out.found.push_back({fault, {}});
      continue;
    }
    proofing::font_rule(*file, sink);
    for (std::size_t i = 0; i < file->pages.size(); ++i) {
      const read::FinishedPage& page = file->pages[i];
      sink.on(path, i);
      proofing::page_rules(*file, page, style->proof, floor, sink);
      proofing::colour_rules(page, style->proof, sink);
      proofing::sheet_rules(page, style->proof, sink);
      out.ink.push_back(proofing::ink_percent(page.pixels));
    }
    out.pages += static_cast<int>(file->pages.size());
    // Words are kept for the check codes, pixels for the report's pictures.
    for (read::FinishedPage& page : file->pages) {
      page.strokes.clear();
      if (request.report.empty()) page.pixels.rgb = {};
    }
    files.push_back(std::move(*file));
  }
  out.files = static_cast<int>(paths.size());
  proofing::code_rule(files, code_words(environment), sink);
  std::stable_sort(out.found.begin(), out.found.end(), [](const ProofPlace& a, const ProofPlace& b) {
    return std::tie(a.finding.at, a.finding.code) < std::tie(b.finding.at, b.finding.code);
  });
  if (!request.report.empty()) {
    const Findings written = write_all({{request.report, proofing::html_report(out, files)}});
    if (has_error(written)) return written;
  }
  return {std::move(out), std::move(findings)};
}

}  // namespace platewright
