// Reads finished files and goes through the rules; one report of all.
#include "platewright/proof.hpp"

#include <algorithm>
#include <filesystem>
#include <map>
#include <memory>
#include <set>
#include <tuple>

#include "base/nearest.hpp"
#include "base/number.hpp"
#include "base/quote.hpp"
#include "engine/deadline.hpp"
#include "engine/figure_file.hpp"
#include "engine/outputs.hpp"
#include "engine/proof_look.hpp"
#include "engine/proof_report.hpp"
#include "engine/proof_rules.hpp"
#include "engine/write.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

namespace fs = std::filesystem;

constexpr double seconds_a_file = 300;
constexpr std::size_t most_bytes = std::size_t{256} << 20;
constexpr std::size_t most_pictures = 400;  // of a file; more findings go without

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

// The codes of the rules that a style leaves out, by number or code.
std::set<std::string> left_out(const ProofRequest& request, const ProofStyle& style,
                               Findings& findings) {
  std::set<std::string> codes;
  std::vector<std::string_view> known;
  for (const ProofRule& rule : proof_rules()) known.push_back(rule.code);
  for (const std::string& name : style.leave) {
    const auto rule = std::find_if(proof_rules().begin(), proof_rules().end(), [&](const ProofRule& r) {
      return r.code == name || std::to_string(r.number) == name;
    });
    if (rule != proof_rules().end())
      codes.insert(std::string(rule->code));
    else
      findings.push_back(error("proof-rule-unknown", {request.style, 0, 0},
                               "proof, leave: there is no rule " + in_quotes(name),
                               did_you_mean(name, known, "name its number or its code")));
  }
  return codes;
}

// The word lists together; nothing where none is named.
std::shared_ptr<const read::WordList> word_lists(const ProofRequest& request, Findings& findings) {
  if (request.words.empty()) return nullptr;
  auto list = std::make_shared<read::WordList>();
  for (const std::string& path : request.words)
    for (Finding& fault : read::add_words(*list, path)) findings.push_back(std::move(fault));
  return list;
}

Findings slow(const std::string& path) {
  return {error("proof-slow", {path, 0, 0},
                "looking at the file takes more than " + format_number(seconds_a_file / 60) + " minutes",
                "look at it in parts")};
}

// Pictures of what was found, in its order; the files are read once more for them.
std::vector<std::string> pictures_of(const std::vector<ProofPlace>& found,
                                     proofing::Look look) {
  std::vector<std::string> pictures(found.size());
  std::map<std::string, std::vector<std::size_t>> by_file;
  for (std::size_t i = 0; i < found.size(); ++i)
    if (std::vector<std::size_t>& of = by_file[found[i].finding.at.file]; of.size() < most_pictures)
      of.push_back(i);
  for (const auto& [path, indices] : by_file) {
    auto bytes = read::file_bytes(path, most_bytes);
    if (!bytes.ok()) continue;
    look.path = path;
    look.bytes = std::move(*bytes);
    look.is_pdf = ending_of(path) == ".pdf";
    std::vector<ProofPlace> places;
    for (const std::size_t i : indices) places.push_back(found[i]);
    const auto drawn = within(seconds_a_file, [look, places] { return pictures_of(look, places); });
    for (std::size_t k = 0; drawn && k < indices.size(); ++k) pictures[indices[k]] = (*drawn)[k];
  }
  return pictures;
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
      {17, "proof-text-far", "A poster that can't be read from where readers stand only decorates."},
      {18, "proof-leader-contrast", "A leader that is lost on the figure leads nowhere."},
      {19, "proof-leader-over-words", "A line through a word strikes it out."},
      {20, "proof-spelling", "Children learn a misspelt word as it is printed."},
  };
  return rules;
}

Result<ProofOutcome> proof(const ProofRequest& request, const Environment& environment) {
  Findings findings;
  const std::vector<std::string> paths = files_of(request.paths, findings);
  const auto style = read::style(request.style, environment.style_folders);
  findings.insert(findings.end(), style.findings().begin(), style.findings().end());
  if (!style.ok()) return findings;
  proofing::Look look;
  look.limits = style->proof;
  if (request.distance) look.limits.distance = *request.distance;
  if (request.age) look.text_floor = style->for_age(*request.age).text_floor;
  look.left_out = left_out(request, style->proof, findings);
  look.words = word_lists(request, findings);
  if (!request.report.empty()) {
    const Findings faults = misdirected({request.report}, [&] {
      std::vector<InputFile> inputs = style_inputs(request.style, environment);
      for (const std::string& path : paths) inputs.push_back({path, "a sheet to look over"});
      for (const std::string& path : request.words) inputs.push_back({path, "a list of words"});
      return inputs;
    });
    findings.insert(findings.end(), faults.begin(), faults.end());
  }
  if (has_error(findings)) return findings;

  ProofOutcome out;
  std::vector<read::Finished> files;
  for (const std::string& path : paths) {
    auto bytes = read::file_bytes(path, most_bytes);
    std::optional<proofing::Looked> looked;
    if (bytes.ok()) {
      look.path = path;
      look.bytes = std::move(*bytes);
      look.is_pdf = ending_of(path) == ".pdf";
      looked = within(seconds_a_file, [look] { return looked_at(look); });
    }
    const Findings faults = !bytes.ok() ? bytes.findings() : !looked ? slow(path) : looked->faults;
    for (const Finding& fault : faults) out.found.push_back({fault, {}});
    if (!looked) continue;
    out.found.insert(out.found.end(), looked->found.begin(), looked->found.end());
    out.ink.insert(out.ink.end(), looked->ink.begin(), looked->ink.end());
    out.pages += static_cast<int>(looked->ink.size());
    files.push_back(std::move(looked->file));
  }
  out.files = static_cast<int>(paths.size());
  proofing::Sink sink(out.found, look.left_out);
  proofing::code_rule(files, code_words(environment), sink);
  std::stable_sort(out.found.begin(), out.found.end(), [](const ProofPlace& a, const ProofPlace& b) {
    return std::tie(a.finding.at, a.finding.code) < std::tie(b.finding.at, b.finding.code);
  });
  if (!request.report.empty()) {
    const Findings written =
        write_all({{request.report, proofing::html_report(out, pictures_of(out.found, look))}});
    if (has_error(written)) return written;
  }
  return {std::move(out), std::move(findings)};
}

}  // namespace platewright
