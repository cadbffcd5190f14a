// make_sheets: read, place, compose, emit, write.
#include <algorithm>
#include <filesystem>
#include <future>
#include <initializer_list>
#include <map>
#include <memory>
#include <optional>

#include "base/at_once.hpp"
#include "base/quote.hpp"
#include "compose/explain.hpp"
#include "emit/emit.hpp"
#include "engine/art_ahead.hpp"
#include "engine/composing.hpp"
#include "engine/outputs.hpp"
#include "engine/planning.hpp"
#include "engine/report.hpp"
#include "engine/thick_art.hpp"
#include "engine/write.hpp"
#include "platewright/engine.hpp"

namespace platewright {
namespace {

namespace fs = std::filesystem;

enum class Format { pdf, svg, png };

struct Target {
  Format format = Format::pdf;
  bool folder = false;
};

Result<Target> target_of(const SheetRequest& request) {
  if (request.out.empty())
    return error("out-missing", {"--out", 0, 0}, "no output is named",
                 "give --out with a file or a folder");
  std::error_code ec;
  const fs::path out(request.out);
  std::string ending = out.extension().string();
  for (char& c : ending) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
  if (!fs::is_directory(out, ec)) {
    if (ending == ".pdf") return Target{Format::pdf, false};
    if (ending == ".svg") return Target{Format::svg, false};
    if (ending == ".png") return Target{Format::png, false};
    if (!ending.empty() && ending.size() <= 5 && request.out.back() != '/')
      return error("out-ending", {"--out", 0, 0},
                   in_quotes(request.out) + " ends in " + in_quotes(ending),
                   "end it in .pdf, .svg or .png, or name a folder with a / at its end");
  }
  const std::string& format = request.format;
  if (format.empty() || format == "pdf") return Target{Format::pdf, true};
  if (format == "svg") return Target{Format::svg, true};
  if (format == "png") return Target{Format::png, true};
  return error("format-unknown", {"--format", 0, 0}, "there is no format " + in_quotes(format),
               "choose pdf, svg or png");
}

// Errors `explain-ending`, `explain-nothing`.
Findings explained(const SheetRequest& request, const ComposedFigure& composed,
                   const text::Typesetter& typesetter, const emit::EmitContext& context,
                   std::vector<OutputFile>& files) {
  if (fs::path(request.explain).extension() != ".svg")
    return {error("explain-ending", {"--explain", 0, 0},
                  in_quotes(request.explain) + " does not end in .svg", "end it in .svg")};
  const auto placed = std::find_if(composed.sheets.begin(), composed.sheets.end(),
                                   [](const ComposedSheet& s) { return s.planned->fit != nullptr; });
  if (placed == composed.sheets.end())
    return {error("explain-nothing", {"--explain", 0, 0}, "no sheet of these has labels to place",
                  "ask for a poster as well")};
  compose::SheetInput input;
  input.figure = &composed.loaded->figure;
  input.plan = &placed->planned->plan;
  input.style = &composed.loaded->style;
  input.words = &composed.loaded->words;
  input.typesetter = &typesetter;
  input.matter = composed.loaded->matter;
  compose::Document document;
  document.pages.push_back(compose::explain_page(input, *placed->planned->fit));
  document.title = document.pages.front().title;
  document.language = "en";
  Result<std::string> drawn = emit::svg(document, 0, context);
  if (drawn.ok()) files.push_back({request.explain, std::move(*drawn)});
  return drawn.findings();
}

std::string_view ending_of(Format format) {
  return format == Format::pdf ? ".pdf" : format == Format::svg ? ".svg" : ".png";
}

// Warning `option-idle`.
Findings idle_options(const SheetRequest& request, const Target& target) {
  Findings findings;
  const auto asked = [&](std::initializer_list<SheetKind> kinds) {
    return std::any_of(kinds.begin(), kinds.end(), [&](SheetKind kind) {
      return std::find(request.kinds.begin(), request.kinds.end(), kind) != request.kinds.end();
    });
  };
  if (!target.folder && !request.format.empty() &&
      std::string(ending_of(target.format)).substr(1) != request.format)
    findings.push_back(warning("option-idle", {"--format", 0, 0},
                               "it says nothing where " + in_quotes(request.out) + " is one file",
                               "end that in ." + request.format + ", or name a folder"));
  if (request.word_bank &&
      !asked({SheetKind::worksheet, SheetKind::criss_cross, SheetKind::fill_in}))
    findings.push_back(warning("option-idle", {"--word-bank", 0, 0},
                               "none of these sheets has a word bank", "ask for a worksheet too"));
  if (request.labels && !asked({SheetKind::colouring}))
    findings.push_back(warning("option-idle", {"--labels", 0, 0},
                               "it says nothing without a colouring page",
                               "ask for colouring too"));
  return findings;
}

std::string stem_of(const SheetRequest& request, const Loaded& loaded) {
  const std::string figure = fs::path(request.figure).stem().string();
  std::string paper = loaded.paper.name;
  std::replace(paper.begin(), paper.end(), '/', '-');
  return figure + (loaded.set.name.empty() ? "" : "-" + loaded.set.name) + "-" + paper;
}

bool keeps_layout(SheetKind kind, const SheetRequest& request) {
  return !request.one_layout && info_of(kind).placing == Placing::shared;
}

}  // namespace

Result<Layout> solve_layout(const SheetRequest& request, const Environment& environment) {
  auto loaded = load(request, environment);
  if (!loaded.ok()) return loaded.findings();
  const text::Typesetter typesetter;
  const std::optional<text::StrokeFont> strokes = stroke_font(environment);
  auto planned =
      shared_plan(*loaded, request.orientation, typesetter, strokes ? &*strokes : nullptr);
  if (!planned.ok()) return planned.findings();
  return {std::move(planned->plan.layout), loaded.findings()};
}

Result<MadeSheets> make_sheets(const SheetRequest& request, const Environment& environment) {
  Findings findings;
  auto target = target_of(request);
  if (!target.ok()) findings = target.findings();
  std::unique_ptr<const text::Typesetter> own_typesetter;
  std::optional<text::StrokeFont> strokes;
  // Faces are found while the figure is read; those of the usual style will be asked for soon.
  const auto find_faces = [&] {
    own_typesetter = std::make_unique<const text::Typesetter>();
    own_typesetter->line("a", {compose::faces(Style{}), Length::pt(10), false, false}, "en");
    strokes = stroke_font(environment);
  };
  std::optional<Result<Loaded>> found;
  at_once([&] { found = load(request, environment); }, find_faces);
  const text::Typesetter& typesetter = *own_typesetter;
  std::shared_ptr<const Loaded> whole;  // outlives what draws its figure
  ArtAhead art_ahead;
  if (target.ok() && target->format == Format::pdf && found->ok())
    (*found)->sized = [&](const Figure& figure, double scale) { art_ahead.begin(figure, scale); };
  auto loaded_result = ready_to_compose(request, *std::move(found), typesetter);
  findings.insert(findings.end(), loaded_result.findings().begin(),
                  loaded_result.findings().end());
  if (has_error(findings)) return findings;
  whole = *loaded_result;
  const Loaded& loaded = *whole;

  const Findings idle = idle_options(request, *target);
  findings.insert(findings.end(), idle.begin(), idle.end());
  auto composed = compose_figure(whole, request, typesetter, strokes ? &*strokes : nullptr);
  findings.insert(findings.end(), composed.findings().begin(), composed.findings().end());
  if (has_error(findings)) return findings;
  emit::EmitContext context = context_of(*composed, environment, typesetter);
  context.keep_art = art_ahead.kept();
  std::vector<compose::Page*> drawn;
  for (ComposedSheet& sheet : composed->sheets)
    for (auto* pages : {&sheet.pages, &sheet.keys})
      for (compose::Page& page : *pages) drawn.push_back(&page);
  thicken_lines(drawn, loaded.style.art_least_line, context.art);
  const std::vector<ComposedSheet>& sheets = composed->sheets;

  const auto document_of = [&](std::vector<compose::Page> pages, const std::string& title) {
    compose::Document document;
    document.title = title;
    document.language = loaded.matter.language;
    document.author = loaded.matter.credit;
    document.direction = loaded.matter.direction;
    document.pages = std::move(pages);
    for (std::size_t i = 0; i < document.pages.size(); ++i)
      document.pages[i].label = std::to_string(i + 1);
    return document;
  };

  // What must not be written over is found out meanwhile, where something is there already.
  std::error_code ec;
  std::future<std::vector<InputFile>> inputs;
  if (fs::exists(request.out, ec))
    inputs = std::async([&] { return inputs_of(request, environment); });

  std::vector<OutputFile> files;
  std::map<std::size_t, std::vector<std::string>> files_of;  // by sheet
  const fs::path out(request.out);
  const std::string stem =
      target->folder ? (out / stem_of(request, loaded)).string()
                     : (out.parent_path() / out.stem()).string();
  const auto emitted = [&](Result<std::string> bytes, const std::string& path) {
    findings.insert(findings.end(), bytes.findings().begin(), bytes.findings().end());
    if (bytes.ok()) files.push_back({path, std::move(*bytes)});
    return bytes.ok();
  };

  if (target->format == Format::pdf && !target->folder) {
    std::vector<compose::Page> all;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
      all.insert(all.end(), sheets[i].pages.begin(), sheets[i].pages.end());
      files_of[i] = {request.out};
    }
    for (const ComposedSheet& sheet : sheets) all.insert(all.end(), sheet.keys.begin(), sheet.keys.end());
    const std::string title = sheets.size() == 1 || loaded.matter.title.empty()
                                  ? all.front().title
                                  : loaded.matter.title;
    if (!emitted(emit::pdf(document_of(std::move(all), title), context), request.out))
      return findings;
  } else {
    std::size_t total = 0;
    for (const ComposedSheet& sheet : sheets) total += sheet.pages.size() + sheet.keys.size();
    // The pages of one sheet, or those of its key, to files of their own.
    const auto written = [&](std::size_t i, const std::vector<compose::Page>& pages,
                             const std::string& what) {
      if (pages.empty()) return true;
      const std::string kind(name_of(sheets[i].kind));
      const compose::Document document = document_of(pages, pages.front().title);
      if (target->format == Format::pdf) {
        const std::string path = stem + "-" + kind + what + ".pdf";
        files_of[i].push_back(path);
        return emitted(emit::pdf(document, context), path);
      }
      for (std::size_t p = 0; p < pages.size(); ++p) {
        const std::string ending(ending_of(target->format));
        std::string path = stem;
        if (target->folder || sheets.size() > 1) path += "-" + kind;
        path += what;
        if (p > 0) path += "-" + std::to_string(p + 1);
        path = !target->folder && total == 1 ? request.out : path + ending;
        files_of[i].push_back(path);
        if (!emitted(target->format == Format::svg ? emit::svg(document, p, context)
                                                   : emit::png(document, p, context),
                     path))
          return false;
      }
      return true;
    };
    for (std::size_t i = 0; i < sheets.size(); ++i)
      if (!written(i, sheets[i].pages, "") || !written(i, sheets[i].keys, "-key")) return findings;
  }

  if (!request.report.empty()) {
    std::vector<ReportedSheet> reported;
    for (std::size_t i = 0; i < sheets.size(); ++i)
      reported.push_back({std::string(name_of(sheets[i].kind)), files_of[i],
                          &sheets[i].planned->plan, &sheets[i].pages, loaded.set.name,
                          sheets[i].check_code, sheets[i].planned->seconds, sheets[i].facts,
                          keeps_layout(sheets[i].kind, request) ? loaded.style.name : std::string()});
    files.push_back({request.report, report_json(request.figure, reported)});
  }

  if (!request.explain.empty()) {
    const Findings said = explained(request, *composed, typesetter, context, files);
    findings.insert(findings.end(), said.begin(), said.end());
    if (has_error(findings)) return findings;
  }

  Findings faults = misdirected(paths_of(files), [&] {
    return inputs.valid() ? inputs.get() : inputs_of(request, environment);
  });
  if (faults.empty()) faults = write_all(files);
  findings.insert(findings.end(), faults.begin(), faults.end());
  if (has_error(findings)) return findings;
  MadeSheets made;
  for (const OutputFile& file : files) made.files.push_back(file.path);
  return {std::move(made), findings};
}

}  // namespace platewright
