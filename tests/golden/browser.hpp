// Sheets as a browser shows them: boxes from its own layout, leaders from the
// drawn paths. Nothing here knows of the program's own layout or solver.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace golden {

struct Point {
  double x = 0;
  double y = 0;
};

struct Box {
  double x = 0, y = 0, w = 0, h = 0;
  double right() const { return x + w; }
  double bottom() const { return y + h; }
};

struct SeenLabel {
  std::string anchor;
  Box box;                  // of all that its group shows, mm
  int painted_under = -1;   // half-millimetre pixels of the figure inside; < 0: not looked at
};

struct SeenText {
  std::string role;         // class of its group: "pw-label", "pw-footer"
  std::string anchor;       // of a label
  Box box;
  double size_pt = 0;
  std::string colour;       // "rgb(31, 29, 38)"
  double length = 0;        // textLength, mm
  double natural = 0;       // what the browser's own type takes without it
  std::string text;
};

struct SeenLeader {
  std::string anchor;
  bool moved = false;                        // by a transform, which the contract does not know
  std::vector<std::vector<Point>> branches;  // each from the label to an end
  std::vector<std::string> hits;  // of each branch's end on its drawn shape: yes, no, unknown
};

struct Margins {
  double left = 0, top = 0, right = 0, bottom = 0;  // mm of white around everything drawn
};

struct SeenSheet {
  std::string name;
  std::string width, height, view_box;  // as written
  std::vector<SeenLabel> labels;
  std::vector<SeenText> texts;
  std::vector<SeenLeader> leaders;
  std::optional<Margins> ink;
  std::vector<std::string> faults;      // what the browser itself complains of
};

struct Shown {
  std::string name;
  std::string svg;
  bool rasters = true;  // also look at the pixels
};

// One start of a headless Chromium for all sheets. Throws when it cannot be run.
std::vector<SeenSheet> look_at(const std::vector<Shown>& sheets);

// "M1 2L3 4M1 2L5 6" to its parts; throws at anything but M and L with absolute numbers.
std::vector<std::vector<Point>> branches_of(const std::string& d);

}  // namespace golden
