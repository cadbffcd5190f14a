#include "engine/load.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "base/nearest.hpp"
#include "base/quote.hpp"
#include "engine/figure_file.hpp"
#include "engine/figure_store.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

void append(Findings& to, const Findings& from) { to.insert(to.end(), from.begin(), from.end()); }

// The reader's own file that a terms file names is compared with the asked one.
void warn_of_other_figure(const SheetRequest& request, const Terms& terms, Findings& findings) {
  namespace fs = std::filesystem;
  if (terms.figure.empty() || request.terms.empty()) return;
  std::error_code ec;
  const fs::path named = fs::path(request.terms).parent_path() / terms.figure;
  const bool same = fs::weakly_canonical(named, ec) == fs::weakly_canonical(request.figure, ec);
  if (same) return;
  // Two files of one name are told by where they lie.
  std::string meant = terms.figure, asked = request.figure;
  if (meant == asked) meant = named.lexically_normal().string();
  if (meant == asked) asked = fs::absolute(asked, ec).lexically_normal().string();
  findings.push_back(
      warning("figure-differs", {request.terms, 0, 0},
              "the terms file is for " + in_quotes(meant) + ", the sheet for " + in_quotes(asked),
              "the figure of the command line counts"));
}

// The layout of an earlier run's report, where it is of the very same sheet.
std::optional<read::KeptSheet> kept_layout(const SheetRequest& request, const Loaded& loaded) {
  namespace fs = std::filesystem;
  std::error_code ec;
  if (request.fresh || request.one_layout || request.report.empty() ||
      !fs::is_regular_file(request.report, ec))
    return std::nullopt;
  const auto bytes = read::file_bytes(request.report, read::Limits{}.file_bytes);
  if (!bytes.ok()) return std::nullopt;
  auto kept = read::kept_sheet(*bytes);
  if (!kept || kept->set != loaded.set.name || kept->style != loaded.style.name ||
      fs::path(kept->figure).filename() != fs::path(request.figure).filename())
    return std::nullopt;
  const Orientation lies =
      kept->width > kept->height ? Orientation::landscape : Orientation::portrait;
  const Paper paper = oriented(loaded.paper, lies);
  if (std::abs(paper.width.mm() - kept->width) > 0.01 ||
      std::abs(paper.height.mm() - kept->height) > 0.01 ||
      (request.orientation != Orientation::automatic && request.orientation != lies))
    return std::nullopt;
  return kept;
}

compose::Matter matter_of(const SheetRequest& request, const Loaded& loaded, const LabelSet& set) {
  compose::Matter matter;
  std::string from_terms(request.titles.text_for(set));
  if (from_terms.empty()) from_terms = loaded.terms.title.text_for(set);
  matter.title = !request.title.empty() ? request.title
                 : !from_terms.empty()  ? from_terms
                                        : loaded.figure.title;
  matter.credit = loaded.terms.credit;
  matter.licence = loaded.terms.licence;
  matter.note = loaded.terms.note.text_for(set);
  matter.language = set.language;
  matter.direction = is_right_to_left(set.language) ? text::Direction::right_to_left
                                                    : text::Direction::left_to_right;
  matter.youngest = set.youngest;
  matter.oldest = set.oldest;
  return matter;
}

Findings add_siblings(const SheetRequest& request, const Environment& environment, Loaded& loaded) {
  Findings findings;
  for (const LabelSet& set : loaded.terms.sets) {
    if (set.name == loaded.set.name) continue;
    Sibling sibling;
    sibling.set = set;
    append(findings, labels_of(loaded.terms, set, loaded.figure, sibling.labels));
    if (sibling.labels.empty()) continue;
    auto words = read::words(set.language, environment.style_folders);
    append(findings, words.findings());
    if (words.ok()) sibling.words = std::move(*words);
    sibling.matter = matter_of(request, loaded, set);
    loaded.siblings.push_back(std::move(sibling));
  }
  return findings;
}

}  // namespace

bool is_right_to_left(std::string_view language) {
  const std::string_view primary = language.substr(0, language.find('-'));
  for (const std::string_view rtl : {"ar", "he", "fa", "ur", "yi", "dv", "ps", "sd", "ug", "ckb"})
    if (primary == rtl) return true;
  return false;
}

Findings labels_of(const Terms& terms, const LabelSet& set, const Figure& figure,
                   std::vector<SetLabel>& labels) {
  Findings findings;
  std::vector<std::string_view> known;
  for (const Anchor& anchor : figure.anchors) known.push_back(anchor.name);
  for (const Term& term : terms.terms) {
    const auto cell = term.cells.find(set.name);
    if (cell == term.cells.end() || cell->second.text.empty()) continue;
    if (std::find(figure.hidden.begin(), figure.hidden.end(), term.anchor) != figure.hidden.end())
      continue;
    if (!figure.find(term.anchor)) {
      findings.push_back(error("anchor-unknown", term.declared,
                               "the figure has no anchor " + in_quotes(term.anchor),
                               did_you_mean(term.anchor, known,
                                            "add it to the figure or under anchors")));
      continue;
    }
    labels.push_back({term.anchor, &cell->second, std::string(term.group.text_for(set)),
                      std::string(term.clue.text_for(set)), term.side, term.inside});
  }
  std::sort(labels.begin(), labels.end(),
            [](const SetLabel& a, const SetLabel& b) { return a.anchor < b.anchor; });
  return findings;
}

Result<Loaded> load(const SheetRequest& request, const Environment& environment,
                    const Keeping* keeping) {
  Findings findings;
  Loaded loaded;

  if (auto paper = find_paper(request.paper); paper.ok())
    loaded.paper = *paper;
  else
    for (Finding f : paper.findings()) {
      f.at.file = "--paper";
      findings.push_back(f);
    }

  if (auto style = read::style(request.style, environment.style_folders); style.ok()) {
    append(findings, style.findings());
    loaded.style = std::move(*style);
  } else {
    append(findings, style.findings());
  }

  bool terms_ok = true;
  if (!request.terms.empty()) {
    std::vector<LabelSet> sets = loaded.style.sets;
    sets.insert(sets.end(), request.sets.begin(), request.sets.end());
    auto bytes = read::file_bytes(request.terms, read::Limits{}.file_bytes);
    if (!bytes.ok()) {
      append(findings, bytes.findings());
      terms_ok = false;
    } else if (auto terms = read::terms(*bytes, request.terms, sets); terms.ok()) {
      append(findings, terms.findings());
      loaded.terms = std::move(*terms);
    } else {
      append(findings, terms.findings());
      terms_ok = false;
    }
  }

  bool set_ok = terms_ok;
  if (terms_ok && !request.terms.empty()) {
    if (request.set.empty() && !loaded.terms.sets.empty()) {
      loaded.set = loaded.terms.sets.front();
    } else if (const LabelSet* set = loaded.terms.find_set(request.set)) {
      loaded.set = *set;
    } else {
      std::vector<std::string_view> known;
      for (const LabelSet& s : loaded.terms.sets) known.push_back(s.name);
      findings.push_back(error("set-unknown", {"--set", 0, 0},
                               in_quotes(request.terms) + " has no label set " + in_quotes(request.set),
                               known.empty() ? "declare one under sets"
                                             : "known sets: " + listed(known)));
      set_ok = false;
    }
    warn_of_other_figure(request, loaded.terms, findings);
  }

  const FigureVersion* version = request.version ? &*request.version : nullptr;
  const std::vector<AddedAnchor>& added = loaded.terms.added;
  if (auto figure = keeping != nullptr
                        ? kept_figure(keeping->figures, keeping->figure_digest, request.figure,
                                      added, version)
                        : figure_file(request.figure, added, version);
      figure.ok()) {
    append(findings, figure.findings());
    loaded.figure = std::move(*figure);
    if (set_ok) append(findings, labels_of(loaded.terms, loaded.set, loaded.figure, loaded.labels));
  } else {
    append(findings, figure.findings());
  }

  auto words = read::words(loaded.set.language, environment.style_folders);
  append(findings, words.findings());
  if (words.ok()) loaded.words = std::move(*words);
  auto letters = read::letters(loaded.set.language, environment.style_folders);
  append(findings, letters.findings());
  if (letters.ok()) loaded.letters = std::move(*letters);

  if (has_error(findings)) return findings;

  if (request.version && request.version->ink_saving) loaded.style.outline_art = true;
  loaded.matter = matter_of(request, loaded, loaded.set);
  loaded.effort = request.effort;
  if (keeping != nullptr) loaded.layouts = &keeping->layouts;
  loaded.kept = kept_layout(request, loaded);
  if (request.one_layout) append(findings, add_siblings(request, environment, loaded));
  if (has_error(findings)) return findings;
  return {std::move(loaded), findings};
}

}  // namespace platewright
