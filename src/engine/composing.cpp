#include "engine/composing.hpp"

#include <algorithm>
#include <map>
#include <optional>

#include "base/quote.hpp"
#include "engine/check_code.hpp"
#include "engine/figure_file.hpp"

namespace platewright {
namespace {

// Faces that are not there, and characters that no listed face has.
Findings type_findings(const Loaded& loaded, const SheetRequest& request,
                       const text::Typesetter& typesetter) {
  const std::string& terms_file = request.terms;
  const bool review = std::any_of(request.kinds.begin(), request.kinds.end(), is_review);
  Findings findings;
  const std::string& face = loaded.style.type.face;
  if (!typesetter.installed(face))
    findings.push_back(error(
        "face-missing", {loaded.style.name, 0, 0}, "the face " + in_quotes(face) + " is not installed",
        face == "Andika" ? "install the package fonts-sil-andika"
                         : "install it, or name another under type: face"));
  const text::Font font{compose::faces(loaded.style), Length::pt(10), false, false};
  const auto check = [&](const std::string& text, const SourcePosition& at) {
    const std::vector<char32_t> missing = typesetter.missing(text, font);
    if (missing.empty()) return;
    std::string list;
    for (const char32_t c : missing) {
      char code[16];
      std::snprintf(code, sizeof code, "U+%04X", static_cast<unsigned>(c));
      list += (list.empty() ? "" : ", ") + std::string(code);
      if (list.size() > 60) break;
    }
    findings.push_back(error("glyph-missing", at,
                             "no face of " + in_quotes(font.face) + " has " + list + " of " +
                                 in_quotes(text),
                             "install a face that has it, e.g. a package of fonts-noto, and name it "
                             "under type: further-faces"));
  };
  for (const SetLabel& label : loaded.labels) {
    const auto term =
        std::find_if(loaded.terms.terms.begin(), loaded.terms.terms.end(),
                     [&](const Term& t) { return t.anchor == label.anchor; });
    const SourcePosition at =
        term != loaded.terms.terms.end() ? term->declared : SourcePosition{terms_file, 0, 0};
    check(label.wording->text, at);
    for (const std::string& other : label.wording->alternatives) check(other, at);
    if (review) check(label.clue + label.group, at);
  }
  check(loaded.matter.title + loaded.matter.credit + loaded.matter.licence + loaded.matter.note,
        {terms_file.empty() ? "--title" : terms_file, 0, 0});
  return findings;
}

// The outline art that pages ask for, made once a width.
Findings add_outlines(const std::vector<ComposedSheet>& sheets, const Figure& figure,
                      const std::string& path,
                      std::vector<std::pair<double, std::string>>& outlines) {
  std::vector<double> widths;
  const auto collect = [&](const auto& self, const std::vector<compose::Item>& items) -> void {
    for (const compose::Item& item : items) {
      if (const auto* group = std::get_if<compose::Group>(&item)) self(self, group->items);
      const auto* f = std::get_if<compose::FigureItem>(&item);
      if (!f || f->art != compose::Art::outlines) continue;
      const double width = f->outline_width / f->transform.scale;
      if (std::find(widths.begin(), widths.end(), width) == widths.end()) widths.push_back(width);
    }
  };
  for (const ComposedSheet& sheet : sheets)
    for (const auto* pages : {&sheet.pages, &sheet.keys})
      for (const compose::Page& page : *pages) collect(collect, page.items);
  for (const double width : widths) {
    auto svg = outlines_of(figure, width, path);
    if (!svg.ok()) return svg.findings();
    outlines.emplace_back(width, std::move(*svg));
  }
  return {};
}

Placing placing_of(SheetKind kind, const SheetRequest& request) {
  if (kind == SheetKind::colouring && request.labels) return Placing::shared;
  return info_of(kind).placing;
}

}  // namespace

std::optional<text::StrokeFont> stroke_font(const Environment& environment) {
  if (environment.stroke_font.empty()) return std::nullopt;
  auto font = text::StrokeFont::read(environment.stroke_font);
  if (!font.ok()) return std::nullopt;
  return std::move(*font);
}

Result<std::shared_ptr<const Loaded>> load_to_compose(const SheetRequest& request,
                                                     const Environment& environment,
                                                     const text::Typesetter& typesetter,
                                                     const Keeping* keeping) {
  return ready_to_compose(request, load(request, environment, keeping), typesetter);
}

Result<std::shared_ptr<const Loaded>> ready_to_compose(const SheetRequest& request,
                                                       Result<Loaded> loaded_result,
                                                       const text::Typesetter& typesetter) {
  Findings findings;
  if (request.kinds.empty())
    findings.push_back(error("kind-missing", {"--kind", 0, 0}, "no kind of sheet is asked for",
                             "name one or more, e.g. poster,worksheet"));
  for (auto kind = request.kinds.begin(); kind != request.kinds.end(); ++kind)
    if (std::find(request.kinds.begin(), kind, *kind) != kind)
      findings.push_back(error("kind-twice", {"--kind", 0, 0},
                               in_quotes(name_of(*kind)) + " is asked for twice",
                               "name each kind once"));
  const bool only_colouring =
      !request.labels && std::all_of(request.kinds.begin(), request.kinds.end(),
                                     [](SheetKind k) { return k == SheetKind::colouring; });
  if (request.terms.empty() && !only_colouring)
    findings.push_back(error("terms-missing", {"--terms", 0, 0},
                             "these sheets need a table of terms",
                             "make one with: platewright anchors FIGURE --starter FILE"));
  findings.insert(findings.end(), loaded_result.findings().begin(),
                  loaded_result.findings().end());
  if (has_error(findings)) return findings;
  // No sheet says it.
  loaded_result->off_grid = !request.report.empty() || !request.explain.empty();
  auto whole = std::make_shared<const Loaded>(std::move(*loaded_result));
  const Loaded& loaded = *whole;

  const Findings type = type_findings(loaded, request, typesetter);
  findings.insert(findings.end(), type.begin(), type.end());
  if (loaded.labels.empty() && !only_colouring)
    findings.push_back(error("set-empty", {request.terms, 0, 0},
                             "the label set " + in_quotes(loaded.set.name) + " labels nothing",
                             "fill in its column"));
  if (has_error(findings)) return findings;
  return {std::move(whole), std::move(findings)};
}

Result<ComposedFigure> compose_figure(std::shared_ptr<const Loaded> whole,
                                      const SheetRequest& request,
                                      const text::Typesetter& typesetter,
                                      const text::StrokeFont* strokes, Plans known) {
  Findings findings;
  const Loaded& loaded = *whole;
  ComposedFigure composed;
  // One plan for the sheets that lie on each other; others have their own.
  Plans plans = std::move(known);
  for (const SheetKind kind : request.kinds) {
    const Placing placing = placing_of(kind, request);
    auto plan = plans.find(placing);
    if (plan == plans.end()) {
      auto made = [&]() -> Result<Planned> {
        switch (placing) {
          case Placing::shared:
            return shared_plan(loaded, request.orientation, typesetter,
                               strokes);
          case Placing::numbered: return numbered_plan(loaded, request.orientation, typesetter);
          case Placing::bare: return bare_plan(loaded, request.orientation, typesetter);
          case Placing::none: break;
        }
        return page_plan(loaded, request.orientation, typesetter);
      }();
      if (!made.ok()) return made.findings();
      plan = plans.emplace(placing, std::make_shared<const Planned>(std::move(*made))).first;
    }
    const Planned& planned = *plan->second;
    compose::SheetInput input;
    input.figure = &loaded.figure;
    input.plan = &planned.plan;
    input.style = &loaded.style;
    input.words = &loaded.words;
    input.letters = &loaded.letters;
    input.route = loaded.terms.route;
    input.table = request.terms;
    input.orientation = request.orientation;
    input.typesetter = &typesetter;
    input.strokes = strokes;
    input.matter = loaded.matter;
    for (const SetLabel& label : loaded.labels)
      input.terms.push_back({label.anchor, label.wording->text, label.clue, label.group});
    input.check_code =
        is_review(kind) ? check_code(name_of(kind), request.seed, loaded.set.name, input.terms,
                                     loaded.figure.svg)
                        : check_code(planned.plan.layout, loaded.set.name, loaded.figure.svg);
    input.word_bank = request.word_bank;
    input.labels = request.labels;
    input.seed = request.seed;
    auto sheet = compose::compose_sheet(kind, input);
    findings.insert(findings.end(), sheet.findings().begin(), sheet.findings().end());
    if (!sheet.ok()) continue;
    composed.sheets.push_back(
        {kind, plan->second, std::move(sheet->pages), std::move(sheet->keys), input.check_code,
         std::move(sheet->facts)});
  }

  if (has_error(findings)) return findings;
  if (Findings faults = add_outlines(composed.sheets, loaded.figure, request.figure,
                                     composed.outlines);
      has_error(faults))
    return faults;
  composed.plans = std::move(plans);
  composed.loaded = std::move(whole);
  return {std::move(composed), std::move(findings)};
}

emit::EmitContext context_of(const ComposedFigure& composed, const Environment& environment,
                             const text::Typesetter& typesetter) {
  emit::EmitContext context;
  context.typesetter = &typesetter;
  context.art.figure = &composed.loaded->figure;
  context.art.outlines = composed.outlines;
  context.png_dpi = composed.loaded->style.png_dpi;
  context.source_date = environment.source_date;
  return context;
}

}  // namespace platewright
