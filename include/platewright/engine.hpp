// What the program does, as a library: sheets from a figure and a table of
// terms, checks, a starter table. Files are read and written here.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "platewright/figure.hpp"
#include "platewright/figure_version.hpp"
#include "platewright/paper.hpp"
#include "platewright/result.hpp"
#include "platewright/sheet.hpp"
#include "platewright/style.hpp"
#include "platewright/terms.hpp"

namespace platewright {

// "0.1.0"
const char* version();

// What the engine takes from its surroundings.
struct Environment {
  std::vector<std::string> style_folders;  // searched in order for styles and words
  std::string stroke_font;                 // .jhf file of single-stroke letters; may be missing
  long long source_date = -1;              // seconds since 1970 written as a PDF's date; < 0: none
};
// Folders of an installed or built platewright, PLATEWRIGHT_STYLES first; SOURCE_DATE_EPOCH.
Environment usual_environment();

// True once work was given up for taking too long (finding `figure-slow`): its
// thread may still run, so a program should leave by std::_Exit.
bool unfinished_work();

// How far a placement is bettered and proven: not at all; up to 16 labels, which
// takes a fraction of a second; or whatever it takes, about a second for thirty.
enum class SolveEffort { quick, usual, thorough };

struct SheetRequest {
  std::string figure;                 // path of an SVG file
  std::string terms;                  // path; empty only for colouring pages
  std::vector<LabelSet> sets;         // set properties for a CSV table
  std::string set;                    // name; empty: the first set of the file
  std::vector<SheetKind> kinds;       // at least one
  std::string paper = "a4";           // name or WxH
  Orientation orientation = Orientation::automatic;
  std::string style = "classroom";    // name, or path of a YAML file
  std::string title;                  // overrides the terms file's and the figure's
  TextBySet titles;  // the same by set: where sets share a layout, each has its own
  std::string out;                    // .pdf, .svg, .png, or a folder (PDF files)
  std::string format;                 // of files in a folder: pdf (also when empty), svg, png
  std::string report;                 // JSON file; may be empty. One that is there from an earlier
                                      // run of the same figure, set, paper and style keeps its
                                      // labels where they are, as far as a change allows
  bool fresh = false;                 // unless this is asked for
  std::string explain;                // SVG file with a drawing of the placement; may be empty
  bool word_bank = false;             // on worksheets
  bool labels = false;                // on colouring pages
  SolveEffort effort = SolveEffort::usual;
  bool one_layout = false;            // labels where all sets of the table have them
  std::uint64_t seed = 1;
  std::optional<FigureVersion> version;  // none: the figure as drawn
};

struct MadeSheets {
  std::vector<std::string> files;     // written, in order
};

// Makes all sheets of a request, or none. Findings: errors when nothing was
// written, else warnings.
Result<MadeSheets> make_sheets(const SheetRequest& request, const Environment& environment);

// The layout that poster, worksheet, copywork and key of a request share.
Result<Layout> solve_layout(const SheetRequest& request, const Environment& environment);

// Every fault in the named files (figures .svg, terms .terms.yaml/.csv, styles
// .yaml), each checked for what it is; a terms file with its figure.
Findings check_files(const std::vector<std::string>& paths, const Environment& environment);

// A figure's anchors, read with everything the engine needs of it.
Result<Figure> read_figure(const std::string& path);

// A terms file with a row for every anchor of the figure, ready to fill in.
std::string starter_terms(const Figure& figure, const std::string& figure_path);

// Writes such a file. Findings: `starter-exists` where `path` is there already, since somebody
// may have filled it in; `write-failed`.
Findings write_starter(const Figure& figure, const std::string& figure_path,
                       const std::string& path);

// Writes `bytes` so that `path` either stays as it was or holds all of them.
// Findings: `write-failed` with the system's reason.
Findings write_whole(const std::string& path, const std::string& bytes);

Result<Style> read_style(const std::string& name_or_path, const Environment& environment);
std::vector<std::string> style_names(const Environment& environment);

}  // namespace platewright
