#include "engine/pack_plan.hpp"

#include <algorithm>
#include <filesystem>
#include <set>

#include "base/nearest.hpp"
#include "base/number.hpp"
#include "base/quote.hpp"
#include "compose/frame.hpp"
#include "engine/figure_store.hpp"
#include "engine/part_key.hpp"
#include "read/read.hpp"
#include "text/text.hpp"

namespace platewright {
namespace {

namespace fs = std::filesystem;

void append(Findings& to, const Findings& from) { to.insert(to.end(), from.begin(), from.end()); }

bool names(const std::vector<NamedAt>& list, std::string_view name) {
  return std::any_of(list.begin(), list.end(), [&](const NamedAt& n) { return n.name == name; });
}

class Planning {
 public:
  Planning(Manifest manifest, const Environment& environment) : environment_(environment) {
    if (manifest.style.everywhere.empty()) manifest.style.everywhere = "classroom";
    plan_.whole = std::make_shared<const Manifest>(std::move(manifest));
  }

  Result<PackPlan> made() {
    read_styles();
    read_tables();
    find_sets();
    read_words();
    if (has_error(findings_)) return sorted(std::move(findings_));
    name_faces();
    for (const LabelSet& set : sets_)
      for (const NamedAt& paper : plan_.manifest().papers) add_edition(set, paper);
    if (has_error(findings_)) return sorted(std::move(findings_));
    plan_.warnings = sorted(findings_);
    return {std::move(plan_), std::move(findings_)};
  }

 private:
  std::vector<LabelSet> sets_given() const {
    // Properties of a CSV's sets come from the style.
    const auto style = plan_.styles.find(plan_.manifest().style.everywhere);
    return style == plan_.styles.end() ? std::vector<LabelSet>{} : style->second.sets;
  }

  void read_style(const std::string& name) {
    if (name.empty() || plan_.styles.contains(name)) return;
    auto style = read::style(name, environment_.style_folders);
    Findings found = style.findings();
    for (Finding& f : found)
      if (f.at.file.empty()) f.at.file = plan_.manifest().file;
    append(findings_, found);
    if (style.ok()) plan_.styles.emplace(name, std::move(*style));
  }

  void read_styles() {
    const TextBySet& style = plan_.manifest().style;
    read_style(style.everywhere);
    for (const auto& [set, name] : style.by) read_style(name);
  }

  void read_tables() {
    for (std::size_t i = 0; i < plan_.manifest().figures.size(); ++i) {
      const PackFigure& figure = plan_.manifest().figures[i];
      auto bytes = read::file_bytes(figure.terms, read::Limits{}.file_bytes);
      if (!bytes.ok()) {
        missing(bytes.findings(), figure);
        continue;
      }
      auto terms = read::terms(*bytes, figure.terms, sets_given());
      append(findings_, terms.findings());
      if (!terms.ok()) continue;
      std::string path = figure.figure;
      if (path.empty() && !terms->figure.empty())
        path = (fs::path(figure.terms).parent_path() / terms->figure).lexically_normal().string();
      if (path.empty()) {
        findings_.push_back(error("terms-figure", figure.declared,
                                  in_quotes(figure.terms) + " names no figure",
                                  "write figure: in it, or {terms: ..., figure: ...} here"));
        continue;
      }
      auto digest = figure_digest(path);
      if (!digest.ok()) {
        missing(digest.findings(), figure);
        continue;
      }
      plan_.tables.push_back({i, std::move(*terms), std::move(path), std::move(*digest)});
    }
  }

  // A file that is not there is said where it is named.
  void missing(Findings found, const PackFigure& figure) {
    for (Finding& f : found) {
      f.message = in_quotes(f.at.file) + ": " + f.message;
      f.at = figure.declared;
    }
    append(findings_, found);
  }

  void find_sets() {
    const Manifest& manifest = plan_.manifest();
    std::vector<std::string_view> known;
    for (const PackTable& table : plan_.tables)
      for (const LabelSet& set : table.terms.sets) {
        const auto same = std::find_if(sets_.begin(), sets_.end(),
                                       [&](const LabelSet& s) { return s.name == set.name; });
        if (same == sets_.end()) {
          sets_.push_back(set);
        } else if (same->language != set.language) {
          Finding finding = error(
              "set-differs", set.declared,
              "set " + in_quotes(set.name) + " is in " + in_quotes(set.language) + " here and in " +
                  in_quotes(same->language) + " in another table of this pack",
              "sets of one name make one edition: give them one language");
          finding.notes.push_back({same->declared, "the other one"});
          findings_.push_back(std::move(finding));
        } else if (same->youngest != set.youngest || same->oldest != set.oldest) {
          Finding finding = warning(
              "set-differs", set.declared,
              "set " + in_quotes(set.name) + " has other ages here than in another table",
              "give sets of one name the same ages");
          finding.notes.push_back({same->declared, "the other one"});
          findings_.push_back(std::move(finding));
        }
      }
    for (const LabelSet& set : sets_) known.push_back(set.name);
    if (manifest.sets.empty()) return;
    std::vector<LabelSet> wanted;
    for (const NamedAt& name : manifest.sets) {
      const auto found = std::find_if(sets_.begin(), sets_.end(),
                                      [&](const LabelSet& s) { return s.name == name.name; });
      if (found != sets_.end())
        wanted.push_back(*found);
      else if (!known.empty())
        findings_.push_back(error(
            "set-unknown", name.at, "no table of this pack has a label set " + in_quotes(name.name),
            did_you_mean(name.name, known, "known sets: " + listed(known))));
    }
    sets_ = std::move(wanted);
  }

  void read_words() {
    std::vector<LabelSet> all = sets_;
    // The sets that share a layout with those of the pack need theirs too.
    for (const PackTable& table : plan_.tables)
      if (plan_.manifest().figures[table.figure].one_layout.value_or(plan_.manifest().one_layout))
        all.insert(all.end(), table.terms.sets.begin(), table.terms.sets.end());
    for (const LabelSet& set : all) {
      if (plan_.words.contains(set.language)) continue;
      auto words = read::words(set.language, environment_.style_folders);
      append(findings_, words.findings());
      if (words.ok()) plan_.words.emplace(set.language, std::move(*words));
      const auto letters = read::letters(set.language, environment_.style_folders);
      append(findings_, letters.findings());
      if (!letters.ok()) continue;
      KeyWriter key;
      for (const auto& [letter, share] : letters->frequency)
        key.add(letter).add(format_number(share, 9));
      for (const std::string& word : letters->unwanted) key.add(word);
      plan_.letters.emplace(set.language, key.digest());
    }
  }

  void name_faces() {
    const text::Typesetter typesetter;
    KeyWriter key;
    for (const auto& [name, style] : plan_.styles)
      key.add(name).add(typesetter.identity(compose::faces(style)));
    plan_.faces = key.digest();
  }

  void add_edition(const LabelSet& set, const NamedAt& paper_name) {
    const Manifest& manifest = plan_.manifest();
    PackEdition edition;
    edition.set = set;
    edition.paper = oriented(*find_paper(paper_name.name), Orientation::portrait);
    edition.name = set.name + '-' + paper_name.name;
    std::replace(edition.name.begin(), edition.name.end(), '/', '-');
    edition.style = manifest.style.text_for(set);
    for (std::size_t t = 0; t < plan_.tables.size(); ++t) {
      const PackTable& table = plan_.tables[t];
      const PackFigure& figure = manifest.figures[table.figure];
      if (!table.terms.find_set(set.name)) continue;
      if (figure.sets && !names(*figure.sets, set.name)) continue;
      // A figure without a label for these readers has nothing to learn on it.
      const bool labelled =
          std::any_of(table.terms.terms.begin(), table.terms.terms.end(),
                      [&](const Term& term) { return term.cells.contains(set.name); });
      if (!labelled) continue;
      add_parts(edition, t, figure, paper_name.name);
    }
    if (edition.parts.empty()) {
      findings_.push_back(warning("edition-empty", manifest.figures.front().declared,
                                  "edition " + in_quotes(edition.name) + " has no sheets",
                                  "give a figure this set, or take it out of sets"));
      return;
    }
    plan_.editions.push_back(std::move(edition));
  }

  // One part for the figure as drawn and as tinted, one for each other version.
  void add_parts(PackEdition& edition, std::size_t table, const PackFigure& figure,
                 const std::string& paper) {
    const Manifest& manifest = plan_.manifest();
    std::vector<std::string> versions;
    for (const NamedAt& version : figure.versions) versions.push_back(version.name);
    if (versions.empty()) versions.emplace_back(as_drawn);
    std::vector<PackLook> drawn;
    for (const std::string& name : versions) {
      PackLook look;
      for (const FigureVersion& version : manifest.versions)
        if (version.name == name) look.version = &version;
      for (const SheetKind kind : figure.kinds ? *figure.kinds : manifest.kinds)
        if (!left_out(manifest, figure.name, name, edition.set.name, paper, kind))
          look.kinds.push_back(kind);
      if (look.kinds.empty()) continue;
      if (look.version != nullptr && !(look.version->hide.empty() && look.version->show.empty()))
        add_part(edition, table, figure, paper, {look}, ":" + name);
      else
        drawn.push_back(std::move(look));
    }
    if (!drawn.empty()) add_part(edition, table, figure, paper, std::move(drawn), "");
  }

  void add_part(PackEdition& edition, std::size_t table, const PackFigure& figure,
                const std::string& paper, std::vector<PackLook> looks, const std::string& version) {
    PackPart part;
    part.table = table;
    // As this table says it: ages may differ from the edition's.
    part.set = *plan_.tables[table].terms.find_set(edition.set.name);
    SheetRequest& request = part.request;
    request.figure = plan_.tables[table].figure_path;
    request.terms = figure.terms;
    request.sets = sets_given();
    request.set = edition.set.name;
    request.paper = paper;
    request.style = edition.style;
    request.titles = figure.title;
    request.word_bank = plan_.manifest().word_bank;
    request.one_layout = figure.one_layout.value_or(plan_.manifest().one_layout);
    request.seed = plan_.manifest().seed;
    if (!version.empty()) request.version = *looks.front().version;
    part.looks = std::move(looks);
    part.id = figure.name + version + '/' + edition.set.name + '/' + paper;
    part.key = part_key(plan_, part, environment_);
    edition.parts.push_back(plan_.parts.size());
    plan_.parts.push_back(std::move(part));
  }

  const Environment& environment_;
  PackPlan plan_;
  std::vector<LabelSet> sets_;
  Findings findings_;
};

}  // namespace

const PackTable* PackPlan::cover_table() const {
  for (const PackTable& table : tables)
    if (manifest().cover.empty() || manifest().figures[table.figure].name == manifest().cover)
      return &table;
  return nullptr;
}

bool left_out(const Manifest& manifest, const std::string& figure, const std::string& version,
              const std::string& set, const std::string& paper, SheetKind kind) {
  const auto fits = [](const std::vector<NamedAt>& list, const std::string& name) {
    return list.empty() || names(list, name);
  };
  return std::any_of(
      manifest.exceptions.begin(), manifest.exceptions.end(), [&](const PackException& e) {
        return fits(e.figures, figure) && fits(e.versions, version) && fits(e.sets, set) &&
               fits(e.papers, paper) &&
               (e.kinds.empty() || std::find(e.kinds.begin(), e.kinds.end(), kind) != e.kinds.end());
      });
}

Result<PackPlan> plan_pack(const std::string& manifest_path, const Environment& environment) {
  auto bytes = read::file_bytes(manifest_path, read::Limits{}.file_bytes);
  if (!bytes.ok()) return bytes.findings();
  auto manifest = read::manifest(*bytes, manifest_path);
  if (!manifest.ok()) return manifest.findings();
  auto plan = Planning(std::move(*manifest), environment).made();
  Findings findings = manifest.findings();
  append(findings, plan.findings());
  if (!plan.ok()) return sorted(std::move(findings));
  plan->manifest_digest = read::sha256(*bytes);
  return {std::move(*plan), sorted(std::move(findings))};
}

}  // namespace platewright
