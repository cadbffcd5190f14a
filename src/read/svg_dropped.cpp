#include "read/svg_dropped.hpp"

#include <string>

namespace platewright::read {
namespace {

struct Wording {
  const char* code;
  const char* one;
  const char* many;
  const char* advice;
};

// In the order of `Dropped`.
constexpr std::array<Wording, dropped_kinds> wordings = {{
    {"svg-script", "script", "scripts", "a printed figure runs nothing; remove them"},
    {"svg-handler", "event handler", "event handlers",
     "a printed figure runs nothing; remove them"},
    {"svg-foreign", "piece of foreign content", "pieces of foreign content",
     "draw it as shapes or text of SVG"},
    {"svg-animation", "animation", "animations", "the figure is shown as it stands without them"},
    {"svg-link", "link", "links", "what stands in a link is kept"},
    {"svg-media", "piece of sound, film or embedded page",
     "pieces of sound, film or embedded pages", "a printed figure cannot play them"},
    {"svg-reference", "reference to something outside the figure",
     "references to something outside the figure",
     "nothing is fetched; copy what is needed into the figure"},
    {"css-import", "css @import", "css @imports", "write the rules into the figure"},
    {"css-rule", "css at-rule or broken rule", "css at-rules or broken rules",
     "only plain rules count in a figure"},
    {"css-value", "css value that reaches outside or runs something",
     "css values that reach outside or run something", "remove them"},
    {"svg-instruction", "processing instruction", "processing instructions",
     "write style rules into a style element"},
    {"image-svg", "embedded svg image", "embedded svg images",
     "copy its drawing into the figure, or embed a PNG"},
    {"image-broken", "image that is no PNG, JPEG, GIF or WebP",
     "images that are no PNG, JPEG, GIF or WebP", "save it as PNG and embed that"},
    {"svg-unknown", "element that no figure needs", "elements that no figure needs", "remove them"},
    {"id-duplicate", "id used a second time", "ids used a second time",
     "the first keeps it; give each its own"},
}};

}  // namespace

void DropCount::add(Dropped kind, const SourcePosition& at) {
  Entry& entry = entries_[static_cast<std::size_t>(kind)];
  if (entry.count++ == 0) entry.first = at;
}

void DropCount::report(Findings& findings) const {
  for (std::size_t i = 0; i < dropped_kinds; ++i) {
    const Entry& entry = entries_[i];
    if (entry.count == 0) continue;
    const std::string what = entry.count == 1
                                 ? "1 " + std::string(wordings[i].one)
                                 : std::to_string(entry.count) + " " + wordings[i].many;
    findings.push_back(warning(wordings[i].code, entry.first,
                               what + " dropped" + (entry.count > 1 ? ", the first here" : ""),
                               wordings[i].advice));
  }
}

}  // namespace platewright::read
