#include "engine/check_pack.hpp"

#include <algorithm>
#include <map>

#include "base/quote.hpp"
#include "engine/page_texts.hpp"
#include "engine/figure_file.hpp"
#include "engine/load.hpp"
#include "engine/pack_plan.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

void append(Findings& to, const Findings& from) { to.insert(to.end(), from.begin(), from.end()); }

// The sets that the pack makes editions of, as a table has them.
std::vector<LabelSet> sets_of(const PackPlan& plan) {
  std::vector<LabelSet> sets;
  for (const PackEdition& edition : plan.editions)
    if (std::none_of(sets.begin(), sets.end(),
                     [&](const LabelSet& s) { return s.name == edition.set.name; }))
      sets.push_back(edition.set);
  return sets;
}

bool labelled(const Term& term, const LabelSet& set) {
  const auto cell = term.cells.find(set.name);
  return cell != term.cells.end() && !cell->second.text.empty();
}

void check_terms(const PackTable& table, const PackFigure& entry, const std::vector<LabelSet>& sets,
                 Findings& findings) {
  std::vector<LabelSet> own;
  for (const LabelSet& set : sets) {
    if (entry.sets && std::none_of(entry.sets->begin(), entry.sets->end(),
                                   [&](const NamedAt& n) { return n.name == set.name; }))
      continue;
    if (const LabelSet* found = table.terms.find_set(set.name))
      own.push_back(*found);
    else
      findings.push_back(warning("set-missing", entry.declared,
                                 in_quotes(table.terms.file) + " has no label set " +
                                     in_quotes(set.name),
                                 "add it, or list the figure's own under sets"));
  }
  for (const Term& term : table.terms.terms) {
    if (!term.cells.empty() &&
        std::none_of(own.begin(), own.end(),
                     [&](const LabelSet& set) { return labelled(term, set); }))
      findings.push_back(warning("term-unused", term.declared,
                                 "term " + in_quotes(term.anchor) +
                                     " is labelled in no set of this pack",
                                 "fill it in or leave it out"));
    for (const LabelSet& has : own)
      for (const LabelSet& lacks : own) {
        const bool siblings = has.youngest == lacks.youngest && has.oldest == lacks.oldest &&
                              has.language != lacks.language;
        if (siblings && labelled(term, has) && !labelled(term, lacks))
          findings.push_back(warning(
              "term-untranslated", term.declared,
              "term " + in_quotes(term.anchor) + " is in set " + in_quotes(has.name) +
                  " but not in " + in_quotes(lacks.name) + ", for the same ages in " +
                  in_quotes(lacks.language),
              "translate it, or empty it in both"));
      }
  }
}

void check_figure(const PackPlan& plan, const PackTable& table, const PackFigure& entry,
                  const std::vector<LabelSet>& sets, Findings& findings) {
  auto figure = figure_file(table.figure_path, table.terms.added);
  append(findings, figure.findings());
  if (!figure.ok()) return;
  for (const LabelSet& set : sets) {
    std::vector<SetLabel> labels;
    append(findings, labels_of(table.terms, set, *figure, labels));
  }
  for (const Anchor& anchor : figure->anchors)
    if (std::none_of(table.terms.terms.begin(), table.terms.terms.end(),
                     [&](const Term& term) { return term.anchor == anchor.name; }) &&
        std::none_of(entry.measures.begin(), entry.measures.end(),
                     [&](const NamedAt& name) { return name.name == anchor.name; }))
      findings.push_back(warning("anchor-unlabelled", anchor.declared,
                                 "anchor " + in_quotes(anchor.name) + " has no term in " +
                                     in_quotes(table.terms.file),
                                 "add a row for it, name it under measures, or remove the anchor"));
  for (const NamedAt& name : entry.versions)
    for (const FigureVersion& version : plan.manifest().versions) {
      if (version.name != name.name) continue;
      if (version.hide.empty() && version.show.empty())
        append(findings, read::tinted_art(*figure, version, table.figure_path).findings());
      else
        append(findings, figure_file(table.figure_path, table.terms.added, &version).findings());
    }
}

// Warning `key-alone`.
void check_key(const PackPlan& plan, const PackFigure& entry, Findings& findings) {
  const std::vector<SheetKind>& kinds = entry.kinds ? *entry.kinds : plan.manifest().kinds;
  const auto has = [&](SheetKind kind) {
    return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
  };
  if (has(SheetKind::key) && !has(SheetKind::worksheet))
    findings.push_back(warning(
        "key-alone", entry.declared,
        "figure " + in_quotes(entry.name) + " has a key, but no worksheet that it is the key of",
        "add worksheet to kinds, or take key out"));
}

// One word in two spellings, over all tables.
void check_spellings(const PackPlan& plan, const std::vector<LabelSet>& sets, Findings& findings) {
  struct Seen {
    std::string text;
    SourcePosition at;
  };
  for (const LabelSet& set : sets) {
    std::map<std::string, Seen> seen;
    for (const PackTable& table : plan.tables)
      for (const Term& term : table.terms.terms) {
        if (!labelled(term, set)) continue;
        const std::string& text = term.cells.at(set.name).text;
        const auto [known, fresh] = seen.emplace(spelling_key(text), Seen{text, term.declared});
        if (fresh || known->second.text == text) continue;
        Finding finding = warning("spelling-differs", term.declared,
                                  "set " + in_quotes(set.name) + " says " + in_quotes(text) +
                                      " here and " + in_quotes(known->second.text) +
                                      " elsewhere in this pack",
                                  "spell it one way");
        finding.notes.push_back({known->second.at, "the other spelling"});
        findings.push_back(std::move(finding));
      }
  }
}

void check_pages(const PackPlan& plan, const std::vector<LabelSet>& sets, Findings& findings) {
  append(findings, read_page_texts(plan).findings());
  for (const PackPage& page : plan.manifest().pages)
    for (const LabelSet& set : sets)
      if (page_path(plan, page.name, set).empty())
        findings.push_back(warning("page-language", page.declared,
                                   "page " + in_quotes(page.name) + " has no text for set " +
                                       in_quotes(set.name) + " in " + in_quotes(set.language),
                                   "the edition goes without it; add " + set.language + ": FILE"));
}

}  // namespace

std::string spelling_key(std::string_view text) {
  std::string key;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const std::string_view pair = text.substr(i, 2);
    if (c == ' ' || c == '-' || c == '\n' || c == '\'' || c == '.') continue;
    if (pair == "\xC2\xAD") {  // a soft hyphen
      ++i;
      continue;
    }
    key += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if (key.ends_with("ae") || key.ends_with("oe")) key.replace(key.size() - 2, 2, "e");
    if (key.ends_with("\xC3\xA6") || key.ends_with("\xC5\x93")) key.replace(key.size() - 2, 2, "e");
  }
  return key;
}

Findings check_pack(const std::string& path, const Environment& environment) {
  auto planned = plan_pack(path, environment);
  Findings findings = planned.findings();
  if (!planned.ok()) return findings;
  const PackPlan& plan = *planned;
  const std::vector<LabelSet> sets = sets_of(plan);
  for (const PackTable& table : plan.tables) {
    const PackFigure& entry = plan.manifest().figures[table.figure];
    check_key(plan, entry, findings);
    check_terms(table, entry, sets, findings);
    check_figure(plan, table, entry, sets, findings);
  }
  check_spellings(plan, sets, findings);
  check_pages(plan, sets, findings);
  return findings;
}

}  // namespace platewright
