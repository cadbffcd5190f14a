#include "engine/part.hpp"

#include <algorithm>

#include "emit/check.hpp"
#include "engine/composing.hpp"
#include "engine/fields.hpp"
#include "engine/figure_store.hpp"
#include "engine/thick_art.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

void put_position(std::string& out, const SourcePosition& at) {
  put(out, at.file);
  put(out, at.line);
  put(out, at.column);
}

SourcePosition position(Fields& fields) {
  SourcePosition at;
  at.file = fields.text();
  at.line = fields.integer();
  at.column = fields.integer();
  return at;
}

std::string label_of(SheetKind kind, const Words& words) {
  const auto found = words.by_key.find(name_of(kind));
  return found == words.by_key.end() ? std::string(name_of(kind)) : found->second;
}

}  // namespace

std::string to_bytes(const PartRecord& record) {
  std::string out;
  put(out, record.title);
  put(out, static_cast<int>(record.sheets.size()));
  for (const PartSheet& sheet : record.sheets) {
    put(out, sheet.kind);
    put(out, sheet.label);
    put(out, sheet.version);
    put(out, sheet.check_code);
    put(out, sheet.pages);
    put(out, sheet.keys);
    put(out, sheet.is_key ? 1 : 0);
  }
  put(out, static_cast<int>(record.pages.size()));
  for (const PartPage& page : record.pages) {
    put(out, page.width);
    put(out, page.height);
    put(out, page.around);
  }
  put(out, static_cast<int>(record.warnings.size()));
  for (const Finding& f : record.warnings) {
    put(out, f.code);
    put(out, f.message);
    put(out, f.advice);
    put_position(out, f.at);
    put(out, static_cast<int>(f.notes.size()));
    for (const FindingNote& note : f.notes) {
      put_position(out, note.at);
      put(out, note.message);
    }
  }
  put(out, record.pdf);
  return out;
}

std::optional<PartRecord> record_from(std::string_view bytes) {
  Fields fields(bytes);
  PartRecord record;
  record.title = fields.text();
  for (int i = 0, n = fields.count(); i < n; ++i) {
    PartSheet sheet;
    sheet.kind = fields.text();
    sheet.label = fields.text();
    sheet.version = fields.text();
    sheet.check_code = fields.text();
    sheet.pages = fields.integer();
    sheet.keys = fields.integer();
    sheet.is_key = fields.integer() != 0;
    record.sheets.push_back(std::move(sheet));
  }
  for (int i = 0, n = fields.count(); i < n; ++i) {
    PartPage page;
    page.width = fields.number();
    page.height = fields.number();
    page.around = fields.number();
    record.pages.push_back(page);
  }
  for (int i = 0, n = fields.count(); i < n; ++i) {
    Finding f;
    f.severity = Severity::warning;
    f.code = fields.text();
    f.message = fields.text();
    f.advice = fields.text();
    f.at = position(fields);
    for (int k = 0, notes = fields.count(); k < notes; ++k) {
      FindingNote note;
      note.at = position(fields);
      note.message = fields.text();
      f.notes.push_back(std::move(note));
    }
    record.warnings.push_back(std::move(f));
  }
  record.pdf = fields.text();
  int pages = 0;
  for (const PartSheet& sheet : record.sheets) pages += sheet.pages + sheet.keys;
  if (!fields.whole() || pages != static_cast<int>(record.pages.size())) return std::nullopt;
  return record;
}

namespace {

// Painted figures become those of the part's document `part`.
void retouch(std::vector<compose::Item>& items, int part) {
  for (compose::Item& item : items) {
    if (auto* group = std::get_if<compose::Group>(&item)) retouch(group->items, part);
    if (auto* figure = std::get_if<compose::FigureItem>(&item);
        figure && figure->art == compose::Art::painted && figure->part < 0)
      figure->part = part;
  }
}

// What the sheets of one look add to a part.
struct Drawing {
  const PackPart& part;
  PartRecord record;
  compose::Document document;
  emit::ArtSource art;
  Plans plans;

  Findings add(const PackLook& look, std::shared_ptr<const Loaded> loaded,
               const text::Typesetter& typesetter, const text::StrokeFont* strokes) {
    SheetRequest request = part.request;
    request.kinds = look.kinds;
    int tinted = -1;
    if (look.version != nullptr && !request.version) {
      if (!look.version->tints.empty()) {
        auto svg = read::tinted_art(loaded->figure, *look.version, request.figure);
        if (!svg.ok()) return svg.findings();
        tinted = static_cast<int>(art.parts.size());
        art.parts.push_back(std::move(*svg));
      }
      if (look.version->ink_saving) {
        auto outlined = std::make_shared<Loaded>(*loaded);
        outlined->style.outline_art = true;
        loaded = std::move(outlined);
      }
    }
    auto composed = compose_figure(loaded, request, typesetter, strokes, plans);
    if (!composed.ok()) return composed.findings();
    plans = composed->plans;
    for (auto& [width, svg] : composed->outlines)
      if (std::none_of(art.outlines.begin(), art.outlines.end(),
                       [w = width](const auto& known) { return known.first == w; }))
        art.outlines.emplace_back(width, std::move(svg));
    for (ComposedSheet& sheet : composed->sheets) {
      PartSheet made;
      made.kind = name_of(sheet.kind);
      made.label = label_of(sheet.kind, loaded->words);
      if (look.version != nullptr) made.version = look.version->title.text_for(part.set);
      made.check_code = sheet.check_code;
      made.pages = static_cast<int>(sheet.pages.size());
      made.keys = static_cast<int>(sheet.keys.size());
      made.is_key = sheet.kind == SheetKind::key;
      record.sheets.push_back(std::move(made));
      for (auto* pages : {&sheet.pages, &sheet.keys})
        for (compose::Page& page : *pages) {
          if (tinted >= 0) retouch(page.items, tinted);
          record.pages.push_back({page.width, page.height, emit::surround(page)});
          document.pages.push_back(std::move(page));
        }
    }
    return composed.findings();
  }
};

}  // namespace

Result<PartRecord> make_part(const PackPlan& plan, const PackPart& part,
                             const Environment& environment, const text::Typesetter& typesetter,
                             const text::StrokeFont* strokes, const Keeping* keeping, Plans known) {
  SheetRequest first = part.request;
  first.kinds = part.looks.front().kinds;
  if (!known.empty()) first.one_layout = false;  // its siblings have had their say
  auto loaded = load_to_compose(first, environment, typesetter, keeping);
  if (!loaded.ok()) return loaded.findings();
  Findings findings = loaded.findings();
  const Loaded& all = **loaded;
  Drawing drawing{part, {}, {}, {}, std::move(known)};
  drawing.art.figure = &all.figure;
  for (const PackLook& look : part.looks) {
    const Findings found = drawing.add(look, *loaded, typesetter, strokes);
    findings.insert(findings.end(), found.begin(), found.end());
  }
  if (has_error(findings)) return sorted(std::move(findings));

  PartRecord& record = drawing.record;
  record.title = all.matter.title.empty() ? all.words.at("untitled") : all.matter.title;
  compose::Document& document = drawing.document;
  document.title = record.title;
  document.language = all.matter.language;
  document.author = all.matter.credit;
  document.direction = all.matter.direction;
  emit::EmitContext context;
  context.typesetter = &typesetter;
  context.art = std::move(drawing.art);
  if (keeping != nullptr) context.keep_art = kept_art(keeping->figures);
  thicken_lines(document, all.style.art_least_line, context.art);
  // No date: a part is the same on every day.
  auto pdf = emit::pdf(document, context);
  findings.insert(findings.end(), pdf.findings().begin(), pdf.findings().end());
  if (!pdf.ok()) return findings;
  record.pdf = std::move(*pdf);
  findings = sorted(std::move(findings));
  for (const Finding& f : findings)
    if (std::find(plan.warnings.begin(), plan.warnings.end(), f) == plan.warnings.end())
      record.warnings.push_back(f);
  return {std::move(record), std::move(findings)};
}

}  // namespace platewright
