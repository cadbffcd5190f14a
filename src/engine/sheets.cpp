// make_sheets: read, place, compose, emit, write.
#include <algorithm>
#include <filesystem>
#include <map>
#include <optional>

#include "base/nearest.hpp"
#include "base/quote.hpp"
#include "emit/emit.hpp"
#include "engine/check_code.hpp"
#include "engine/figure_file.hpp"
#include "engine/load.hpp"
#include "engine/planning.hpp"
#include "engine/report.hpp"
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

std::string_view ending_of(Format format) {
  return format == Format::pdf ? ".pdf" : format == Format::svg ? ".svg" : ".png";
}

// Faces that are not there, and characters that no listed face has.
Findings type_findings(const Loaded& loaded, const std::string& terms_file,
                       const text::Typesetter& typesetter) {
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
  }
  check(loaded.matter.title + loaded.matter.credit + loaded.matter.licence,
        {terms_file.empty() ? "--title" : terms_file, 0, 0});
  return findings;
}

struct Composed {
  SheetKind kind;
  const Planned* planned;
  std::vector<compose::Page> pages;
  std::vector<compose::Page> keys;
  std::string check_code;
};

// The outline art that pages ask for, made once a width.
Findings add_outlines(const std::vector<Composed>& sheets, const Figure& figure,
                      const std::string& path, emit::ArtSource& art) {
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
  for (const Composed& sheet : sheets)
    for (const auto* pages : {&sheet.pages, &sheet.keys})
      for (const compose::Page& page : *pages) collect(collect, page.items);
  for (const double width : widths) {
    auto svg = outlines_of(figure, width, path);
    if (!svg.ok()) return svg.findings();
    art.outlines.emplace_back(width, std::move(*svg));
  }
  return {};
}

std::string stem_of(const SheetRequest& request, const Loaded& loaded) {
  const std::string figure = fs::path(request.figure).stem().string();
  std::string paper = loaded.paper.name;
  std::replace(paper.begin(), paper.end(), '/', '-');
  return figure + (loaded.set.name.empty() ? "" : "-" + loaded.set.name) + "-" + paper;
}

Placing placing_of(SheetKind kind, const SheetRequest& request) {
  if (kind == SheetKind::colouring && request.labels) return Placing::shared;
  return info_of(kind).placing;
}

}  // namespace

Result<Layout> solve_layout(const SheetRequest& request, const Environment& environment) {
  auto loaded = load(request, environment);
  if (!loaded.ok()) return loaded.findings();
  const text::Typesetter typesetter;
  auto planned = shared_plan(*loaded, request.orientation, typesetter, nullptr);
  if (!planned.ok()) return planned.findings();
  return {std::move(planned->plan.layout), loaded.findings()};
}

Result<MadeSheets> make_sheets(const SheetRequest& request, const Environment& environment) {
  Findings findings;
  auto target = target_of(request);
  if (!target.ok()) findings = target.findings();
  if (request.kinds.empty())
    findings.push_back(error("kind-missing", {"--kind", 0, 0}, "no kind of sheet is asked for",
                             "name one or more, e.g. poster,worksheet"));
  const bool only_colouring =
      !request.labels && std::all_of(request.kinds.begin(), request.kinds.end(),
                                     [](SheetKind k) { return k == SheetKind::colouring; });
  if (request.terms.empty() && !only_colouring)
    findings.push_back(error("terms-missing", {"--terms", 0, 0},
                             "these sheets need a table of terms",
                             "make one with: platewright anchors FIGURE --starter FILE"));
  auto loaded_result = load(request, environment);
  findings.insert(findings.end(), loaded_result.findings().begin(),
                  loaded_result.findings().end());
  if (has_error(findings)) return findings;
  Loaded& loaded = *loaded_result;

  const text::Typesetter typesetter;
  const Findings type = type_findings(loaded, request.terms, typesetter);
  findings.insert(findings.end(), type.begin(), type.end());
  if (loaded.labels.empty() && !only_colouring)
    findings.push_back(error("set-empty", {request.terms, 0, 0},
                             "the label set " + in_quotes(loaded.set.name) + " labels nothing",
                             "fill in its column"));
  if (has_error(findings)) return findings;

  std::optional<text::StrokeFont> strokes;
  if (!environment.stroke_font.empty())
    if (auto font = text::StrokeFont::read(environment.stroke_font); font.ok())
      strokes = std::move(*font);

  // One plan for the sheets that lie on each other; others have their own.
  std::map<Placing, Planned> plans;
  std::vector<Composed> sheets;
  for (const SheetKind kind : request.kinds) {
    const Placing placing = placing_of(kind, request);
    auto plan = plans.find(placing);
    if (plan == plans.end()) {
      auto made = [&]() -> Result<Planned> {
        switch (placing) {
          case Placing::shared:
            return shared_plan(loaded, request.orientation, typesetter,
                               strokes ? &*strokes : nullptr);
          case Placing::numbered: return numbered_plan(loaded, request.orientation, typesetter);
          case Placing::bare: return bare_plan(loaded, request.orientation, typesetter);
          case Placing::none: break;
        }
        return page_plan(loaded, request.orientation, typesetter);
      }();
      if (!made.ok()) {
        findings.insert(findings.end(), made.findings().begin(), made.findings().end());
        return findings;
      }
      plan = plans.emplace(placing, std::move(*made)).first;
    }
    const Planned& planned = plan->second;
    compose::SheetInput input;
    input.figure = &loaded.figure;
    input.plan = &planned.plan;
    input.style = &loaded.style;
    input.words = &loaded.words;
    input.typesetter = &typesetter;
    input.strokes = strokes ? &*strokes : nullptr;
    input.matter = loaded.matter;
    for (const SetLabel& label : loaded.labels)
      input.terms.push_back({label.anchor, label.wording->text, label.clue, label.group});
    input.check_code = check_code(planned.plan.layout, loaded.set.name, loaded.figure.svg);
    input.word_bank = request.word_bank;
    input.labels = request.labels;
    input.seed = request.seed;
    auto sheet = compose::compose_sheet(kind, input);
    if (!sheet.ok()) {
      findings.insert(findings.end(), sheet.findings().begin(), sheet.findings().end());
      continue;
    }
    sheets.push_back(
        {kind, &planned, std::move(sheet->pages), std::move(sheet->keys), input.check_code});
  }

  if (has_error(findings)) return findings;

  emit::EmitContext context;
  context.typesetter = &typesetter;
  context.art.figure = &loaded.figure;
  context.png_dpi = loaded.style.png_dpi;
  context.source_date = environment.source_date;
  if (Findings faults = add_outlines(sheets, loaded.figure, request.figure, context.art); !faults.empty()) {
    findings.insert(findings.end(), faults.begin(), faults.end());
    if (has_error(findings)) return findings;
  }

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
    for (const Composed& sheet : sheets) all.insert(all.end(), sheet.keys.begin(), sheet.keys.end());
    const std::string title = sheets.size() == 1 || loaded.matter.title.empty()
                                  ? all.front().title
                                  : loaded.matter.title;
    if (!emitted(emit::pdf(document_of(std::move(all), title), context), request.out))
      return findings;
  } else {
    std::size_t total = 0;
    for (const Composed& sheet : sheets) total += sheet.pages.size() + sheet.keys.size();
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
                          sheets[i].check_code, sheets[i].planned->seconds});
    files.push_back({request.report, report_json(request.figure, reported)});
  }

  Findings faults = write_all(files);
  findings.insert(findings.end(), faults.begin(), faults.end());
  if (has_error(findings)) return findings;
  MadeSheets made;
  for (const OutputFile& file : files) made.files.push_back(file.path);
  return {std::move(made), findings};
}

}  // namespace platewright
